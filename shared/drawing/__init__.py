"""Drawings as plain data, their self-check and their writers."""
