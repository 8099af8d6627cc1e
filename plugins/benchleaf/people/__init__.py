"""Pages and printed forms about people: who learns what, and when."""
