"""Every answer again, by separate code that sees only what is printed."""
