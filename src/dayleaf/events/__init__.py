"""What happened, as values. Events are append-only; every belief, mark and forecast is folded from them."""
