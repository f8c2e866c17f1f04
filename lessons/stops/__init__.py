"""The lesson `stops`: is there enough light."""
