"""What can hurt at each step, and what one person should lift."""
