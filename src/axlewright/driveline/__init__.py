"""What carries: how torque and load part between the pieces of driveline and axle."""
