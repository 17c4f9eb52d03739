"""Virtual children live through a whole plan."""
