"""Exercises: data in, outcomes out; nothing anyone types is ever executed."""
