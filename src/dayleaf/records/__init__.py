"""What a household keeps: events, frozen sheets, plan versions, caches, backup."""
