"""The mounts and spring sizes there are, and what a fitter calls them."""

MOUNTS = ("regular", "top-jamb", "parallel")

MOUNT_WORDS = {"regular": "regular arm", "top-jamb": "top jamb", "parallel": "parallel arm"}
"""What a fitter calls each mount."""

BODY_INTO = {"regular": "leaf", "top-jamb": "frame face", "parallel": "leaf"}
"""What the body is fixed to on each mount."""

SHOE_INTO = {"regular": "frame face", "top-jamb": "leaf", "parallel": "soffit"}
"""What the shoe is fixed to on each mount."""

PULL_SIDE = ("regular",)
"""The mounts whose closer is on the side the leaf opens toward; the others are on the push side."""

SIZES = (1, 7)
"""The weakest and strongest EN size there is (EN 1154, table 1)."""
