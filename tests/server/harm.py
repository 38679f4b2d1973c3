"""What must hold after whatever was made to harm: the server lives, its memory is bounded."""
from live import LiveTest

MORE_MIB = 80  # what a harmful request may add to the server's memory


class HarmTest(LiveTest):
    def setUp(self):
        self.before = self.server.memory_mib()[0]

    def tearDown(self):
        self.assertTrue(self.server.alive())
        after = self.server.memory_mib()
        self.assertLess(after[0] - self.before, MORE_MIB, f"memory grew from {self.before:.0f} to {after[0]:.0f} MiB")
