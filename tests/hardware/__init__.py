"""Tests of the contact readers and the simulator beside them."""
