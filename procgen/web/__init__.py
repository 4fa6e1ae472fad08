"""Cards -> pages: a site that works from a folder, from any static host and under any path."""
