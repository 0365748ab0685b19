"""Drawings of an opening: plan, text and SVG."""
