"""The functions as Calc calls them."""
