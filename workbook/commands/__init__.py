"""What `python3 -m workbook WORD` runs once the environment stands."""
