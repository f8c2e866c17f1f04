"""The lesson `freeze`: how short a flash freezes."""
