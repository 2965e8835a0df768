"""The picture: timelines, poses, and the ways to show them (a live view, a still, a page to take home)."""
