"""Light and lens: pulse curves, metering, exposure, blur, the lens and its sharpness, clear surfaces."""
