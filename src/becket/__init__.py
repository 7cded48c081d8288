"""becket plans, guides and records the re-reeving of a telescopic mobile crane."""
