"""What every picture is made with: canvas, lettering, style, phrases, shots, the set from the side."""
