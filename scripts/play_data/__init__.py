"""Turns open play-by-play tables into a setting: see ../build_settings.py."""
