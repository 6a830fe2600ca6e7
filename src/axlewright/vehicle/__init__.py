"""What pushes: air, engine, torque converter, tire and grip, and how hard a launch can hit.

Each module is one physical idea.  What joins them into a load on a part is a study.
"""
