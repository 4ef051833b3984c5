"""Drawings of true size: mark-out sheet and bench pages."""
