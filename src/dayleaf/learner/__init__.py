"""What the child knows and gets wrong, and what comes back."""
