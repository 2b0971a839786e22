"""What must be bought for a job, and from whom."""
