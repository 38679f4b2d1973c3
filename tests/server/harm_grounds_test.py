"""Ground files that are none, or lie. Refused, alive, memory bounded."""
import os
import pathlib
import sqlite3
import struct
import tempfile
import time

from harm import MORE_MIB
from live import LiveTest, main


class HarmfulGround(LiveTest):
    fells = True

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.folder = tempfile.TemporaryDirectory(prefix="lodeway-harm-")
        ground = cls.server.get("/api/grounds/" + cls.server.demo_ground())
        cls.good = pathlib.Path(ground["file"]).read_bytes()
        cls.before = cls.server.memory_mib()[0]

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()
        super().tearDownClass()

    def write(self, name, data):
        path = pathlib.Path(self.folder.name, name)
        path.write_bytes(data)
        return str(path)

    def changed(self, name, *statements):
        """The good ground with SQL done to it."""
        path = self.write(name, self.good)
        db = sqlite3.connect(path)
        db.execute("PRAGMA writable_schema=ON")
        for statement in statements:
            db.executescript(statement)
        db.commit()
        db.close()
        return path

    def refused(self, path, seconds=120):
        begun = time.time()
        status, got = self.server.call("POST", "/api/grounds/open", {"path": path})
        self.assertIn(status, (400, 413, 422), got)
        self.assertLess(time.time() - begun, seconds)
        self.assertTrue(self.server.alive())
        self.assertLess(self.server.memory_mib()[0] - self.before, MORE_MIB)
        return got["fault"]

    def test_no_ground_at_all(self):
        for name, data in (("empty.gpkg", b""), ("garbage.gpkg", os.urandom(1 << 20)), ("text.gpkg", b"hello\n" * 1000),
                           ("head.gpkg", self.good[:100] + os.urandom(1 << 20)), ("cut.gpkg", self.good[:len(self.good) // 2]),
                           ("zeros.gpkg", self.good[:4096] + b"\0" * (1 << 20))):
            with self.subTest(name):
                self.assertIn(name, str(self.refused(self.write(name, data))))
        self.refused("/etc/passwd")
        self.refused("/no/such/file.gpkg")
        self.refused("/dev/zero")
        self.refused("relative.gpkg")
        self.refused(self.folder.name)

    def test_wrong_schema(self):
        tables = [r[0] for r in sqlite3.connect(self.write("t.gpkg", self.good)).execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'rtree_%'")]
        self.assertIn("gpkg_contents", tables)
        for table in ("gpkg_contents", "gpkg_spatial_ref_sys", "gpkg_geometry_columns"):
            with self.subTest(table):
                self.refused(self.changed(f"no-{table}.gpkg", f"DROP TABLE {table};"))

    def test_views_and_triggers_with_odd_sql(self):
        endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT "
        contents = [r[1] for r in sqlite3.connect(self.write("c.gpkg", self.good)).execute("PRAGMA table_info(gpkg_contents)")]
        columns = ", ".join(f"i AS {c}" for c in contents)
        path = self.changed("endless.gpkg", "ALTER TABLE gpkg_contents RENAME TO kept;", f"CREATE VIEW gpkg_contents AS {endless}{columns} FROM n;")
        self.assertIn("a view", self.refused(path, seconds=10)["message"])
        # A trigger runs when something is written; a ground is only read. It is the same ground as before.
        path = self.changed("trigger.gpkg", "CREATE TRIGGER t AFTER UPDATE ON gpkg_contents BEGIN DELETE FROM gpkg_contents; END;")
        before = pathlib.Path(path).read_bytes()
        self.assertEqual(self.server.post("/api/grounds/open", {"path": path})["summary"]["rows"], 1200)
        self.assertEqual(pathlib.Path(path).read_bytes(), before)

    def test_huge_declared_sizes(self):
        for name, statement in (
                ("tile.gpkg", "UPDATE gpkg_tile_matrix SET tile_width = 1000000, tile_height = 1000000;"),
                ("pixel.gpkg", "UPDATE gpkg_tile_matrix SET pixel_x_size = 1e-9, pixel_y_size = 1e-9;"),
                ("extent.gpkg", "UPDATE gpkg_tile_matrix_set SET max_x = 1e300, max_y = 1e300;")):
            with self.subTest(name):
                self.refused(self.changed(name, statement))

    def test_a_declared_size_that_nobody_believes(self):
        path = self.changed("matrix.gpkg", "UPDATE gpkg_tile_matrix SET matrix_width = 2000000000, matrix_height = 2000000000;")
        status, got = self.server.call("POST", "/api/grounds/open", {"path": path})
        if status == 200:  # the extent and the pixel's size decide
            self.assertEqual((got["summary"]["rows"], got["summary"]["cols"]), (1200, 1200))
        self.assertLess(self.server.memory_mib()[0] - self.before, MORE_MIB)

    def test_geometry_that_lies_about_its_length(self):
        path = self.write("lies.gpkg", self.good)
        db = sqlite3.connect(path)
        layer, column = db.execute("SELECT table_name, column_name FROM gpkg_geometry_columns ORDER BY table_name DESC LIMIT 1").fetchone()
        for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            db.execute(f'DROP TRIGGER "{name}"')
        # A GeoPackage head, then a line of four thousand million points that are not there.
        head = b"GP\0\x01" + struct.pack("<i", 32629)
        db.execute(f'UPDATE "{layer}" SET "{column}" = ?', (head + b"\x01" + struct.pack("<II", 2, 0xFFFFFFFF),))
        db.commit()
        db.close()
        self.refused(path)


if __name__ == "__main__":
    main()
