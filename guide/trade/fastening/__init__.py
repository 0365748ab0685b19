"""Screws, threads, drills and what holds them."""
