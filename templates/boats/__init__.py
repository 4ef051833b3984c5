"""Invented boats: survey, ropes and prices of no boat that exists."""
