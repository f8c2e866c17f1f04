"""How things come onto the frame: geometry of the camera, sprites, smear, blur, layers."""
