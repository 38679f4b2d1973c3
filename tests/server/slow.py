"""By what a sanitizer or a busy machine makes everything longer: $LODEWAY_SLOW, 1 where it is not set."""
import os

SLOW = float(os.environ.get("LODEWAY_SLOW", "1"))
