"""Estimates the population of quarterbacks from counts by game (docs/population.md)."""
