"""What a user, a shell and a full disk do to the commands."""
import os
import pathlib
import pwd
import random
import shutil
import signal
import subprocess
import sys
import time
import unittest

sys.path.insert(0, os.path.dirname(__file__))
from world import EXAMPLE, PROGRAM, World, left_behind, run, start, write_heights


class Output(World):
    def test_a_full_disk_under_the_answer(self):
        with open("/dev/full", "w") as full:
            for words in (["north", "--at", "54.5 -3.1", "--date", "2026-07-01"], ["--help"], ["--version"],
                          ["ground", "show", self.ground()], ["way", EXAMPLE, "--ground", self.ground()],
                          ["way", EXAMPLE, "--ground", self.ground(), "--json"]):
                with self.subTest(words):
                    self.refused(run(*words, stdout=full), "standard output: could not be written: No space left on device")

    def test_a_closed_output(self):
        done = run("--version", stdout=None, before=lambda: os.close(1))
        self.refused(done, "standard output")

    def test_a_closed_pipe_is_quiet(self):
        for ignored in (False, True):
            with self.subTest(ignored=ignored):
                reads, writes = os.pipe()
                os.close(reads)
                def before():
                    signal.signal(signal.SIGPIPE, signal.SIG_IGN if ignored else signal.SIG_DFL)
                done = run("way", EXAMPLE, "--ground", self.ground(), stdout=writes, before=before)
                os.close(writes)
                self.assertEqual(done.stderr, "")
                self.assertNotEqual(done.returncode, 0)


class CutShort(World):
    def test_an_ascii_grid_cut_short_with_bounds_beyond_its_rows(self):
        heights = write_heights(self.folder, rows=10000, rows_there=60)
        begun = time.time()
        done = run("ground", "build", str(self.folder / "g.gpkg"), "--elevation", heights, "--bounds=-8.5,54.0,-8.494,54.004", cwd=self.folder, timeout=60)
        self.refused(done, "heights.asc: could not be read whole")
        self.assertLess(time.time() - begun, 5 * SLOW)
        self.assertEqual(sorted(p.name for p in self.folder.iterdir()), ["heights.asc", "heights.prj"])

    def test_a_trip_made_to_cost_time(self):
        trip, ground = self.folder / "t.toml", self.ground()
        for text in ("".join(f"k{i} = 1\n" for i in range(50000)), "[party]\n" + "".join(f"k{i} = 1\n" for i in range(50000)),
                     "a" * 100000 + " = 1\n", ".".join("a" * 200000) + " = 1\n", "[" + ".".join("a" * 200000) + "]\n",
                     "a = " + "[" * 200000, "a = " + "{b = " * 100000, "[[point]]\n" * 90000, 'name = "' + "x" * 900000 + '"\n',
                     "a = " + "'" * 3 + "\n" * 900000):
            with self.subTest(text[:20]):
                trip.write_text(text)
                begun = time.time()
                self.assertLess(len(self.refused(run("way", str(trip), "--ground", ground))), 400)
                self.assertLess(time.time() - begun, 4 * SLOW)


class Signals(World):
    def ended_within(self, seconds, signals, *words):
        """Seconds from the first signal to the end, after it has worked for a moment."""
        process = start(*words, cwd=self.folder)
        time.sleep(seconds)
        begun = time.time()
        for one in signals:
            process.send_signal(one)
            if len(signals) > 1:
                time.sleep(0.02)
        process.communicate(timeout=60)
        return time.time() - begun, process.returncode

    def write_track(self, name, points):
        """A long walk due north at an odd pace."""
        dice, lat, text = random.Random(1), 54.6, []
        for i in range(points):
            lat += 0.00001 * dice.uniform(0.5, 1.5)
            second = 9 * i
            text.append(f'<trkpt lat="{lat:.7f}" lon="-9.2"><ele>{100 + i % 50}</ele><time>2026-09-{1 + second // 86400 % 28:02}T'
                        f"{second // 3600 % 24:02}:{second // 60 % 60:02}:{second % 60:02}Z</time></trkpt>")
        (self.folder / name).write_text('<?xml version="1.0"?><gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>'
                                        + "".join(text) + "</trkseg></trk></gpx>")

    def test_no_command_lasts_half_a_second_longer(self):
        out = str(self.folder / "out.gpkg")
        heights = write_heights(self.folder, 1500, 1500)
        self.write_track("long.gpx", 200_000)
        for words in (["way", EXAMPLE, "--ground", self.ground()], ["ground", "demo", out],
                      ["rehearse", EXAMPLE, "--ground", self.ground(), "--walkers", "1000000"],
                      ["paper", EXAMPLE, "--ground", self.ground(), "--out", str(self.folder / "paper")],
                      ["relocate", self.ground(), "--height", "640", "--falls", "210", "--beside", "stream", "--date", "2026-11-14"],
                      ["ground", "build", out, "--elevation", heights, "--licence", "none", "--attribution", "none"],
                      ["learn", "party.toml", "--track", "long.gpx"]):
            for moment in (0.05, 0.4, 1.0):
                with self.subTest(words[0], moment=moment):
                    took, status = self.ended_within(moment, [signal.SIGINT], *words)
                    self.assertLess(took, 0.5 * SLOW, (words, status))
                    self.assertEqual(left_behind(self.folder), [])

    def test_a_second_signal_ends_at_once(self):
        took, status = self.ended_within(0.5, [signal.SIGINT, signal.SIGINT], "rehearse", EXAMPLE, "--ground", self.ground(),
                                         "--walkers", "1000000")
        self.assertLess(took, 0.3 * SLOW)
        self.assertIn(status, (-signal.SIGINT, 2))


class LeftBehind(World):
    def test_a_killed_run_is_cleared_by_the_next(self):
        for _ in range(20):
            process = start("ground", "demo", str(self.folder / "g.gpkg"))
            until = time.time() + 60
            while not left_behind(self.folder) and process.poll() is None and time.time() < until:
                time.sleep(0.002)
            process.kill()
            process.communicate()
            if left_behind(self.folder):
                break
        self.assertTrue(left_behind(self.folder), "it was to be killed while it wrote")
        self.assertEqual(run("ground", "demo", str(self.folder / "other.gpkg")).returncode, 0)
        self.assertEqual(left_behind(self.folder), [])

    def test_what_lives_and_what_is_not_ours_stays(self):
        start_ticks = pathlib.Path("/proc/self/stat").read_text().rsplit(")")[1].split()[19]
        boot = pathlib.Path("/proc/sys/kernel/random/boot_id").read_text()[:8]
        living = self.folder / f".new-{os.getpid()}-{boot}-{start_ticks}-x.gpkg"
        names = [living.name, ".new-notes", ".new-12-notes.txt", f".new-{os.getpid()}-00000000-1-of-another-machine"]
        for name in names:
            (self.folder / name).write_text("x")
        (self.folder / f".new-{os.getpid()}-{boot}-1-reused-number").write_text("x")
        old = self.folder / ".new-1-00000000-5-long-ago"
        old.write_text("x")
        os.utime(old, (time.time() - 90000,) * 2)
        self.assertEqual(run("ground", "demo", str(self.folder / "g.gpkg")).returncode, 0)
        self.assertEqual(left_behind(self.folder), sorted(names))

    def test_a_file_size_limit_is_a_write_error(self):
        (self.folder / "g.gpkg").write_text("what was there")
        self.refused(run("ground", "demo", str(self.folder / "g.gpkg"), file_limit=100_000), "could not be written")
        self.assertEqual((self.folder / "g.gpkg").read_text(), "what was there")
        self.assertEqual(left_behind(self.folder), [])
        out = self.folder / "paper"
        self.refused(run("paper", EXAMPLE, "--ground", self.ground(), "--out", str(out), file_limit=4000), "could not be written")
        self.assertEqual(left_behind(self.folder), [])
        self.assertEqual([p for p in out.rglob("*") if p.is_file()], [])


class Words(World):
    def test_our_own_words_for_wrong_words(self):
        for words, parts in (
                (["north", "--angle", "furlongs"], ["--angle: expected one of degrees, mils, got furlongs"]),
                (["way", EXAMPLE, "--pick", "fastest"], ["--pick: expected quick, middle or sure, got 'fastest'"]),
                (["way", EXAMPLE, "--explain", "0"], ["--explain: expected a whole number from 1 to 999, got 0"]),
                (["serve", "--port", "99999"], ["--port: expected a whole number from 0 to 65535"]),
                (["way", EXAMPLE, "--pik", "surest"], ["--pik: this option is not known; did you mean --pick?"]),
                (["wy", EXAMPLE], ["wy: this command is not known; did you mean way?"]),
                (["way"], ["TRIP: expected, found none"]),
                ([], ["expected a command: ", "way"]),
                (["ground"], ["expected a command: build, "]),
                (["way", EXAMPLE, "more"], ["more: "]),
                (["ground", "build", "x.gpkg", "--elevation", "a.tif", "--cell", "ten"], ["--cell: expected a number, got ten"]),
                (["ground", "build", "x.gpkg", "--elevation", "a.tif", "--bounds", "1,2,3"], ["--bounds: expected 4 values"])):
            with self.subTest(words):
                line = self.refused(run(*words), *parts)
                for theirs in ("->", "FAILED", "Check ", "required", "INT", "FLOAT", "{"):
                    self.assertNotIn(theirs, line)

    def test_what_is_quoted_is_short(self):
        long = "x" * 5000
        trip = self.folder / "t.toml"
        for words in (["way", EXAMPLE, "--pick", long], [long], ["way", EXAMPLE, "--" + long], ["ground", "seen", self.ground(), "--from", long],
                      ["ground", "build", "x.gpkg", "--elevation", "a.tif", "--cell", long],
                      ["ground", "build", "x.gpkg", "--elevation", "/dev/null", "--crs", long]):
            with self.subTest(words[0][:10] + words[-1][:10]):
                self.assertLess(len(self.refused(run(*words))), 400)
        for text in (f"{long} = 1\n", f'date = "{long}"\n', f"date = 2026-07-01\nstart = \"09:00\"\nzone = \"{long[:1500]}\"\n",
                     f'date = 2026-07-01\nstart = "09:00"\n[[point]]\nat = "{long[:1500]}"\n', f"[{long}]\n", f"[party]\n{long} = 1\n"):
            trip.write_text(text)
            with self.subTest(text[:10]):
                self.assertLess(len(self.refused(run("way", str(trip), "--ground", self.ground()))), 900)

    def test_a_misspelt_key_is_named_with_the_nearest_right_one(self):
        trip = self.folder / "t.toml"
        text = pathlib.Path(EXAMPLE).read_text()
        trip.write_text(text.replace("[party]", "[party]\nskil = \"novice\"", 1))
        self.refused(run("way", str(trip), "--ground", self.ground()), "party.skil: this key is not known; did you mean skill?")

    def test_heights_that_are_all_unknown_are_refused(self):
        """No range "nan to nan m" is ever told."""
        heights = write_heights(self.folder, rows=3, cols=3, rows_there=0)
        with open(self.folder / heights, "a") as file:
            file.write("-9999 -9999 -9999\n" * 3)
        line = self.refused(run("ground", "build", "g.gpkg", "--elevation", heights, "--licence", "none", "--attribution", "none", cwd=self.folder),
                            "heights.asc: expected heights, found only voids")
        self.assertNotIn("nan", line)

    def test_an_empty_home_is_no_home(self):
        """State then lies where the system says that the user is at home; nowhere is it taken to be the top of all folders."""
        own = pathlib.Path(pwd.getpwuid(os.getuid()).pw_dir) / ".local/state/lodeway"
        if own.exists():
            self.skipTest(f"SKIPPED: {own} is somebody's own")
        process = subprocess.Popen([PROGRAM, "serve", "--port", "0"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                                   env={"PATH": os.environ["PATH"], "HOME": ""})
        line = process.stdout.readline()
        opened = [os.readlink(p) for p in pathlib.Path(f"/proc/{process.pid}/fd").iterdir() if os.path.exists(p)] if line else []
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=30)
        if line:
            self.assertTrue([p for p in opened if p == str(own / "trips.sqlite")], opened)
            shutil.rmtree(own)
        else:
            self.assertIn("lodeway: ", said)
        self.assertFalse(pathlib.Path("/.local").exists())


SLOW = float(os.environ.get("LODEWAY_SLOW", "1"))  # a sanitizer's or a busy machine's factor
if __name__ == "__main__":
    unittest.main(verbosity=1)
