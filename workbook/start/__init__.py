"""From a bare Python to an open workbook.

Only the standard library until the environment stands; `lab` alone reaches for JupyterLab.
"""
