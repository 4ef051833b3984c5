"""What goes to a supplier and what comes back."""
