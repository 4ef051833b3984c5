"""The menu: one file for each of its entries."""
