"""From what is ordered to what is sown."""
