"""Kernels: floats and arrays in SI and radians; no validation, no input or output, no units."""
