#!/usr/bin/env python3
"""open_test.py PROGRAM [CLASS] - `bloomset open` as a page, a second page and an ill-wisher meet it.

Every answer is held against api/openapi.json by an independent validator (python3-jsonschema). Standard library otherwise.
"""
import http.client
import json
import os
import pathlib
import re
import select
import signal
import socket
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import unittest
import urllib.parse

try:
    import jsonschema
except ImportError:
    sys.exit("the package python3-jsonschema is not installed")

ROOT = pathlib.Path(__file__).resolve().parents[2]
API = json.loads((ROOT / "api/openapi.json").read_text(encoding="utf-8"))
PROGRAM = ""
HARBOUR = (ROOT / "demo/08-harbour-light.toml").read_text(encoding="utf-8")
asked = {}  # (method, path of the document) -> statuses seen


def operation(method, target):
    path = target.split("?")[0].removeprefix("/api/v1").split("/")
    for template, methods in API["paths"].items():
        pieces = template.split("/")
        if len(pieces) == len(path) and all(p == q or (p.startswith("{") and q) for p, q in zip(pieces, path)) and method.lower() in methods:
            return template, methods[method.lower()]
    return None, {"responses": {"default": {"content": {"application/json": {"schema": {"$ref": "#/components/schemas/ErrorBody"}}}}}}


def hold(method, target, status, kind, body):
    """An answer against what is written down; the document, or the list of lines."""
    template, op = operation(method, target)
    asked.setdefault((method, template), set()).add(status)
    answer = op["responses"].get(str(status)) or op["responses"]["default"]
    if status >= 400 and str(status) not in op["responses"]:
        assert "default" in op["responses"]
    assert kind in answer["content"], f"{method} {target}: {status} with {kind}"
    judge = jsonschema.Draft202012Validator({**answer["content"][kind]["schema"], "components": API["components"]})
    documents = [json.loads(line) for line in body.splitlines()] if kind == "application/x-ndjson" else [json.loads(body)]
    for document in documents:
        faults = [f"{list(e.absolute_path)}: {e.message[:200]}" for e in judge.iter_errors(document)]
        assert not faults, f"{method} {target}: {faults[:3]}"
    return documents if kind == "application/x-ndjson" else documents[0]


class Bloomset:
    """A running program. `home` holds the shelf."""

    def __init__(self, home, *options, port="0"):
        env = {"PATH": os.environ["PATH"], "HOME": str(home)}
        for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
            if name in os.environ:
                env[name] = os.environ[name]
        self.process = subprocess.Popen([PROGRAM, "open", "--port", port, "--shelf", str(home / "a.shelf"), "--no-browser", *options],
                                        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=env)
        line = self.process.stdout.readline()
        found = re.fullmatch(r"bloomset: http://127\.0\.0\.1:(\d+)\n", line)
        assert found, line + self.process.stderr.read()
        self.port = int(found.group(1))
        self.host = f"127.0.0.1:{self.port}"

    def raw(self, data, wait=10):
        """Bytes in, all bytes out until the other side closes or is silent."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=wait) as s:
            try:
                s.sendall(data)
            except OSError:
                pass  # refused while it was being sent
            out = b""
            try:
                while more := s.recv(65536):
                    out += more
                    head, _, body = out.partition(b"\r\n\r\n")
                    length = re.search(rb"Content-Length: (\d+)", head)
                    if length and len(body) >= int(length.group(1)):
                        break
            except (TimeoutError, ConnectionResetError):
                pass
            return out

    def ask(self, method, path, body=None, headers=None, connection=None):
        """Status, document and headers of one call; the answer was held against what is written down."""
        target = "/api/v1" + path
        own = connection or http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        data = None if body is None else json.dumps(body).encode()
        own.request(method, target, data, {"Content-Type": "application/json", **(headers or {})})
        answer = own.getresponse()
        text = answer.read()
        if connection is None:
            own.close()
        return answer.status, hold(method, target, answer.status, answer.headers["Content-Type"], text), answer.headers

    def end(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
        try:
            code = self.process.wait(timeout=30)
        finally:
            self.process.kill()
        self.process.stdout.close()
        self.process.stderr.close()
        return code


class Open(unittest.TestCase):
    options = ()

    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.home = pathlib.Path(cls.folder.name)
        cls.at = Bloomset(cls.home, *cls.options)

    @classmethod
    def tearDownClass(cls):
        code = cls.at.end()
        cls.folder.cleanup()
        assert code == 0, f"ended with {code}"

    def ask(self, method, path, body=None, headers=None, status=200):
        got, document, head = self.at.ask(method, path, body, headers)
        self.assertEqual(got, status, document)
        return document, head

    def get(self, path, status=200):
        return self.ask("GET", path, status=status)[0]

    def post(self, path, body, status=200):
        return self.ask("POST", path, body, status=status)[0]


class Wire(Open):
    def test_a_first_visit_finds_the_demo(self):
        hello = self.get("/hello")
        self.assertEqual((hello["fresh"], hello["lan"], hello["first"]), (True, False, "Harbour Light"))
        names = {d["name"] for d in self.get("/documents?kind=formula")["documents"]}
        self.assertTrue({"Harbour Light", "Quay Sour", "syrups"} <= names)
        self.assertEqual(self.get("/documents/formula/Harbour%20Light")["text"], HARBOUR)
        found = self.get("/search?words=carda")["documents"]
        self.assertIn("Harbour Light", {d["name"] for d in found})
        self.assertIn("«", found[0]["excerpt"])
        self.assertEqual(self.get("/documents?kind=larder")["documents"], [])

    def test_a_document_is_saved_changed_removed_and_all_of_it_kept(self):
        path = "/documents/formula/" + urllib.parse.quote("Crème / 50 % né", safe="")
        self.get(path, status=404)
        saved, head = self.ask("PUT", path, {"text": "one"}, {"If-None-Match": "*"})
        self.assertEqual((saved["revision"], saved["name"], head["ETag"]), (1, "Crème / 50 % né", '"1"'))
        saved, head = self.ask("PUT", path, {"text": "two"}, {"If-Match": '"1"'})
        self.assertEqual(head["ETag"], '"2"')
        self.ask("DELETE", path, None, {"If-Match": '"2"'})
        self.assertTrue(self.get(path)["gone"])
        self.assertEqual([(r["revision"], r["gone"], r["bytes"]) for r in self.get(path + "/revisions")["revisions"]], [(3, True, 0), (2, False, 3), (1, False, 3)])
        self.assertEqual(self.get(path + "/revisions/1")["text"], "one")
        self.get(path + "/revisions/9", status=404)
        self.get(path + "/revisions/x", status=400)
        self.get("/documents/formula/nothing/revisions", status=404)
        self.ask("DELETE", "/documents/formula/nothing", None, {"If-Match": '"1"'}, status=404)

    def test_nobodys_edit_is_lost(self):
        path = "/documents/formula/two%20writers"
        self.ask("PUT", path, {"text": "base"}, {"If-None-Match": "*"})
        self.ask("PUT", path, {"text": "hers"}, {"If-Match": '"1"'})
        conflict, head = self.ask("PUT", path, {"text": "his"}, {"If-Match": '"1"'}, status=412)
        self.assertEqual((conflict["theirs"]["text"], conflict["began_from"]["text"], head["ETag"]), ("hers", "base", '"2"'))
        conflict, _ = self.ask("PUT", path, {"text": "new"}, {"If-None-Match": "*"}, status=412)
        self.assertIsNone(conflict["began_from"])
        self.ask("DELETE", path, None, {"If-Match": '"1"'}, status=412)
        self.ask("PUT", path, {"text": "his"}, status=428)
        self.ask("DELETE", path, status=428)
        for match in ("2", '"x"', '"0"', 'W/"2"', "*", '"2", "3"'):
            self.ask("PUT", path, {"text": "his"}, {"If-Match": match}, status=400)
        self.ask("PUT", path, {"words": "his"}, {"If-Match": '"2"'}, status=400)

    def test_many_writers_take_turns(self):
        path = "/documents/formula/counter"
        self.ask("PUT", path, {"text": ""}, {"If-None-Match": "*"})

        def add(letter):
            for _ in range(5):
                while True:
                    now = self.get(path)
                    if self.at.ask("PUT", path, {"text": now["text"] + letter}, {"If-Match": f'"{now["revision"]}"'})[0] == 200:
                        break

        threads = [threading.Thread(target=add, args=(letter,)) for letter in "abcd"]
        [t.start() for t in threads]
        [t.join() for t in threads]
        self.assertEqual(sorted(self.get(path)["text"]), sorted("abcd" * 5))

    def test_sheet_is_the_command_lines(self):
        for name in ("01-quay-sour", "08-harbour-light", "12-buoys-and-roe", "15-wreck"):
            text = (ROOT / f"demo/{name}.toml").read_text(encoding="utf-8")
            told = json.loads(subprocess.run([PROGRAM, "sheet", f"demo/{name}.toml", "--serves", "7", "--json"], capture_output=True, cwd=ROOT, timeout=60).stdout)
            here = self.post("/sheet", {"text": text, "serves": 7})
            for document in (told, here):
                for finding in document["findings"]:
                    finding["where"]["file"] = None  # the one thing that may differ: how the text is called
            self.assertEqual(here, told)

    def test_a_sheet_says_how_far_it_swings_where_asked(self):
        swings = self.post("/sheet", {"text": HARBOUR, "scatter": True})["scatter"]
        abv = next(row for row in swings if row["key"] == "abv_percent")
        self.assertTrue(abv["p05"] < abv["p50"] < abv["p95"])

    def test_every_demo_passes_over_the_wire(self):
        for file in sorted((ROOT / "demo").glob("*.toml")):
            text = file.read_text(encoding="utf-8")
            with self.subTest(file=file.name):
                bench = self.post("/bench", {"text": text, "name": file.stem})
                self.assertEqual((bench["text"], bench["faults"]), (text, []))
                self.assertTrue(bench["outline"] and bench["sheet"])
                self.post("/counter", {"text": text})
                self.assertEqual(self.post("/read", {"kind": "formula", "text": text})["faults"], [])

    def test_bench_edits_acts_and_sizes(self):
        bench = self.post("/bench", {"text": HARBOUR})
        pen = bench["outline"]["parts"][0]["steps"][0]["takes"][0]["amount"]
        edited = self.post("/bench", {"text": HARBOUR, "edits": [{**pen["place"], "text": "250 g"}], "acts": [{"act": "set_serves", "value": 8}]})
        self.assertEqual(edited["text"], HARBOUR.replace("230 g orange", "250 g orange").replace("serves   = 6", "serves   = 8"))
        self.assertEqual(edited["sheet"]["serves"], 8)
        written = self.post("/bench", {"text": HARBOUR, "acts": [{"act": "write", "at": pen["place"], "value": "250 g"}]})
        self.assertEqual(written["text"], HARBOUR.replace("230 g orange", "250 g orange"))
        self.assertEqual(self.post("/bench", {"text": HARBOUR, "serves": 40})["sheet"]["serves"], 40)
        new = self.post("/bench", {"text": "", "acts": [{"act": "add_line", "value": "200 g lime juice"}]})
        self.assertEqual(new["sheet"]["parts"][0]["takes"][0]["thing"], "lime juice")
        self.post("/bench", {"text": HARBOUR, "acts": [{"act": "remove_step", "part": 1, "step": 99}]}, status=400)
        self.post("/bench", {"text": HARBOUR, "acts": [{"act": "brew"}]}, status=400)
        self.post("/bench", {"text": HARBOUR, "acts": [{"act": "set_title", "value": "a", "part": 1}]}, status=400)
        self.post("/bench", {"text": HARBOUR, "acts": [{"act": "move_take", "part": 1, "step": 1, "take": 1, "by": 2}]}, status=400)
        self.post("/bench", {"text": HARBOUR, "edits": [7]}, status=400)
        self.post("/bench", {"text": HARBOUR, "serves": 0}, status=400)

    def test_scaling_is_an_edit_like_any_other(self):
        fit = self.post("/bench", {"text": HARBOUR, "fit": {"part": "orange cloud", "vessel": "siphon, one litre"}})
        self.assertNotEqual(fit["text"], HARBOUR)
        again = self.post("/bench", {"text": fit["text"]})
        self.assertEqual(again["text"], fit["text"])
        self.assertEqual(again["sheet"]["parts"][0]["siphon"]["vessel"], "siphon, one litre")
        self.assertEqual(again["sheet"]["parts"], fit["sheet"]["parts"])
        have = self.post("/bench", {"text": HARBOUR, "have": "1 kg ginger soda"})
        self.assertEqual(self.post("/bench", {"text": have["text"]})["sheet"]["serves"], have["sheet"]["serves"])
        self.assertIn(f"serves   = {have['sheet']['serves']}", have["text"])
        self.post("/bench", {"text": HARBOUR, "fit": {"part": "nothing", "vessel": "siphon, one litre"}}, status=400)
        self.post("/bench", {"text": HARBOUR, "have": "a lot"}, status=400)

    def test_faults_have_their_places(self):
        unread = self.post("/bench", {"text": HARBOUR.replace('"230 g orange', '"230 orange'), "name": "Harbour Light"})
        self.assertIsNone(unread["outline"])
        line = HARBOUR[:HARBOUR.index('"230 g')].count("\n") + 1
        self.assertEqual((unread["faults"][0]["line"], unread["faults"][0]["file"]), (line, "Harbour Light"))
        unmade = self.post("/bench", {"text": HARBOUR.replace("lime juice", "lyme juice")})
        self.assertTrue(unmade["outline"])
        self.assertIsNone(unmade["sheet"])
        self.assertIn("lime juice", unmade["faults"][0]["hint"])
        for path in ("/sheet", "/counter", "/balance", "/scatter"):
            self.assertEqual(self.post(path, {"text": "nonsense"}, status=400)["error"]["faults"][0]["line"], 1)

    def test_long_works_tell_how_far_they_are(self):
        lines = self.post("/scatter", {"text": HARBOUR, "draws": 2048, "seed": 3})
        shares = [line["progress"] for line in lines[:-1]]
        self.assertEqual(shares, sorted(shares))
        told = json.loads(subprocess.run([PROGRAM, "scatter", "demo/08-harbour-light.toml", "--draws", "2048", "--seed", "3", "--json"], capture_output=True,
                                         cwd=ROOT, timeout=120).stdout)
        self.assertEqual(lines[-1]["done"]["properties"], told["properties"])
        done = self.post("/balance", {"text": HARBOUR, "targets": ["serve.abv 10 %"], "vary": ["cane spirit", "20-60 mL lime juice"], "exact": True})[-1]["done"]
        self.assertTrue(done["met"])
        self.assertEqual({a["thing"].split(" (")[0] for a in done["amounts"]}, {"cane spirit", "lime juice"})
        self.assertIn("nothing called", json.dumps(self.post("/balance", {"text": HARBOUR, "vary": ["sand"]})[-1]["error"]))
        self.post("/balance", {"text": HARBOUR, "targets": ["much"]}, status=400)
        self.post("/scatter", {"text": HARBOUR, "draws": 0}, status=400)

    def test_small_readers(self):
        lines = self.post("/lines", {"lines": "200 g lime juice\na pinch of hope\n3 tbsp honey"})
        self.assertEqual([line["read"] for line in lines["lines"]], [True, False, True])
        self.assertIn("lime juice", lines["text"])
        rows = self.post("/compare", {"before": "a\nb\n", "after": "a\nc\n"})["rows"]
        self.assertEqual(rows[0]["kind"], "same")
        self.assertTrue(any(row["kind"] != "same" for row in rows))
        self.assertIn("lime juice", {t["name"] for t in self.get("/larder")["things"]})
        self.assertIn("siphon, half litre", {v["name"] for v in self.get("/kit")["vessels"]})
        self.assertIn("lime juice", {t["name"] for t in self.get("/names?words=lim&most=5")["things"]})
        self.get("/names?words=lim&most=x", status=400)
        words = self.get("/words")
        self.assertIn("shake", {a["name"] for a in words["acts"]})
        self.assertTrue(self.post("/read", {"kind": "kit", "text": "x"})["faults"])
        for path in ("/lines", "/compare", "/larder/draft", "/read", "/bench"):
            self.post(path, {}, status=400)

    def test_an_own_thing_is_in_force_as_soon_as_it_is_saved(self):
        draft = self.post("/larder/draft", {"name": "fog cordial", "like": "syrup", "numbers": {"brix": 40}})
        self.assertEqual(draft["faults"], [])
        path = "/documents/larder/ours"
        self.ask("PUT", path, {"text": draft["text"]}, {"If-None-Match": "*"})
        mine = [t for t in self.get("/larder")["things"] if t["name"] == "fog cordial"]
        self.assertEqual([t["from"] for t in mine], ["ours"])
        text = HARBOUR.replace("15 mL lime juice", "15 mL fog cordial")
        self.assertTrue(self.post("/bench", {"text": text})["sheet"])
        self.ask("DELETE", path, None, {"If-Match": '"1"'})
        self.assertIsNone(self.post("/bench", {"text": text})["sheet"])

    def test_zz_every_call_was_held_to_what_is_written_down(self):
        self.ask("POST", "/pair", {"code": "000000"}, status=404)
        for path, methods in API["paths"].items():
            for method in methods:
                seen = asked.get((method.upper(), path), set())
                self.assertTrue(seen, f"{method} {path} was never asked")
                if path != "/pair":  # Lan
                    self.assertIn(200, seen, f"{method} {path} never answered well")


class Hostile(Open):
    def status(self, data):
        answer = self.at.raw(data)
        head, _, body = answer.partition(b"\r\n\r\n")
        self.assertTrue(head.startswith(b"HTTP/1.1 "), answer[:200])
        for field in (b"Content-Security-Policy: default-src 'none'", b"X-Content-Type-Options: nosniff", b"Referrer-Policy: no-referrer"):
            self.assertIn(field, head)
        code = int(head.split()[1])
        if code >= 400:
            hold("GET", "/api/v1/nothing", code, "application/json", body)
        return code

    def request(self, line="GET /api/v1/hello", *fields, body=b"", host=None):
        head = [line + " HTTP/1.1", f"Host: {host or self.at.host}", *fields]
        return "\r\n".join(head).encode() + b"\r\n\r\n" + body

    def test_only_its_own_address_is_answered(self):
        self.assertEqual(self.status(self.request()), 200)
        self.assertEqual(self.status(self.request(host=f"localhost:{self.at.port}")), 200)
        for host in ("evil.example", f"evil.example:{self.at.port}", "127.0.0.1", f"127.0.0.1:{self.at.port}.evil.example"):
            self.assertEqual(self.status(self.request(host=host)), 421, host)
            self.assertEqual(self.status(self.request("GET /", host=host)), 421, host)
        self.assertEqual(self.status(self.request("GET /api/v1/hello", f"Host: {self.at.host}")), 421)
        self.assertEqual(self.status(b"GET / HTTP/1.1\r\n\r\n"), 421)
        with self.assertRaises(OSError):  # the loopback only
            socket.create_connection(("127.0.0.2", self.at.port), timeout=2)

    def test_another_site_cannot_write_or_ask(self):
        body = b'{"code":"000000"}'
        length, json_type = f"Content-Length: {len(body)}", "Content-Type: application/json"
        for fields in (("Origin: http://evil.example",), ("Origin: null",), ("Sec-Fetch-Site: cross-site",), ("Sec-Fetch-Site: same-site", f"Origin: http://{self.at.host}")):
            for line in ("POST /api/v1/sheet", "PUT /api/v1/documents/formula/x", "DELETE /api/v1/documents/formula/x"):
                self.assertEqual(self.status(self.request(line, length, json_type, *fields, body=body)), 403, fields)
        self.assertEqual(self.status(self.request("POST /api/v1/pair", length, json_type, f"Origin: http://{self.at.host}", body=body)), 404)
        for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"):
            self.assertEqual(self.status(self.request("POST /api/v1/sheet", length, "Content-Type: " + kind, body=body)), 415, kind)
        self.assertNotIn(b"Access-Control", self.at.raw(self.request("OPTIONS /api/v1/sheet", "Origin: http://evil.example", "Access-Control-Request-Method: POST")))

    def test_paths_lead_nowhere_else(self):
        for path in ("/../../etc/passwd", "/assets/../../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd.txt", "/assets/%2e%2e%2findex.html", "//etc/passwd.x", "/.env"):
            self.assertEqual(self.status(self.request("GET " + path)), 404, path)
        for path in ("/api/v1/../../etc/passwd", "/api/v2/hello", "/api/v1/documents/formula/%zz", "/api/v1/documents//x", "/api/"):
            self.assertEqual(self.status(self.request("GET " + path)), 404, path)
        self.assertEqual(self.status(self.request("GET /api/v1/documents/formula/..%2F..%2Fetc%2Fpasswd")), 404)
        self.assertEqual(self.status(self.request("POST /api/v1/hello", "Content-Length: 0", "Content-Type: application/json")), 405)

    def test_sizes_are_bounded(self):
        self.assertEqual(self.status(self.request("POST /api/v1/sheet", "Content-Length: 100000000", "Content-Type: application/json", body=b"x" * 100_000_000)), 413)
        self.assertEqual(self.status(self.request("GET /" + "a" * 9000)), 414)
        self.assertEqual(self.status(self.request("GET /", *[f"a{i}: b" for i in range(2000)])), 431)
        self.assertEqual(self.status(self.request("GET /", "a: " + "b" * 200_000)), 431)
        for text in ("[" * 100_000, '{"text":' * 5000 + "1" + "}" * 5000):
            body = text.encode()
            self.assertEqual(self.status(self.request("POST /api/v1/sheet", f"Content-Length: {len(body)}", "Content-Type: application/json", body=body)), 400)
        large = json.dumps({"text": "#" * 7_000_000}).encode()
        self.assertEqual(self.status(self.request("POST /api/v1/sheet", f"Content-Length: {len(large)}", "Content-Type: application/json", body=large)), 400)

    def test_bad_manners_are_refused(self):
        for fields, wanted in ((("Transfer-Encoding: chunked",), 411), (("Content-Length: -5",), 400), (("Content-Length: 5", "Content-Length: 6"), 400)):
            self.assertEqual(self.status(self.request("POST /api/v1/sheet", "Content-Type: application/json", *fields, body=b"0\r\n\r\n")), wanted, fields)
        for line in ("TRACE /", "CONNECT /", "PATCH /api/v1/hello", "OPTIONS *", "GET http://evil.example/"):
            self.assertIn(self.status(self.request(line)), (400, 405, 415), line)
        for garbage in (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", b"\x00" * 100, os.urandom(64).replace(b" ", b"\xff"), b"SSH-2.0-x\r\n", b"GET / HTTP/1.0\r\n\r\n"):
            self.assertEqual(self.status(garbage), 400, garbage)
        for body in (b"", b"{", b"[]", b"1", b"\xff", b'{"text":"a","text":"b"}', b'{"text":1}', b'{"tekst":"a"}', b'{"text":"\\ud800"}'):
            self.assertEqual(self.status(self.request("POST /api/v1/sheet", f"Content-Length: {len(body)}", "Content-Type: application/json", body=body)), 400, body)
        self.assertEqual(self.status(self.request()), 200)

    def test_half_open_connections_stop_nobody(self):
        held = [socket.create_connection(("127.0.0.1", self.at.port)) for _ in range(200)]
        for i, one in enumerate(held):
            if i % 3:
                one.sendall(b"POST /api/v1/sheet HTTP/1.1\r\nHost: a\r\nX-" if i % 3 == 1 else b"G")
        took = []
        for _ in range(20):
            begun = time.monotonic()
            self.assertEqual(self.status(self.request()), 200)
            took.append(1000 * (time.monotonic() - begun))
        print(f"200 half-open connections: median {statistics.median(took):.1f} ms, worst of 20 {max(took):.1f} ms")
        self.assertLess(statistics.median(took), 100)
        [one.close() for one in held]

    def test_the_second_start_is_told_what_to_do(self):
        done = subprocess.run([PROGRAM, "open", "--port", str(self.at.port), "--shelf", str(self.home / "b.shelf"), "--no-browser"], capture_output=True, text=True, timeout=30)
        self.assertEqual((done.returncode, done.stdout), (2, ""))
        self.assertIn("--port", done.stderr)
        self.assertFalse((self.home / "b.shelf").exists())

    def test_the_page_or_an_honest_word_in_its_place(self):
        for path in ("/", "/bench/Harbour%20Light", "/shelf"):
            answer = self.at.raw(self.request("GET " + path))
            self.assertIn(b"Content-Type: text/html; charset=utf-8", answer)
            self.assertIn(b"Cache-Control: no-store", answer)
        if b"built without its page" in answer:
            return
        files = re.findall(rb'(?:src|href)="(/assets/[^"]+)"', answer)
        self.assertTrue(files, "the page names no file of its own")
        for file in files:
            told = self.at.raw(self.request("GET " + file.decode()))
            self.assertIn(b"Cache-Control: public, max-age=31536000, immutable", told)
            self.assertIn(b"Content-Type: text/css" if file.endswith(b".css") else b"Content-Type: text/javascript", told)


class Life(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.home = pathlib.Path(self.folder.name)

    def tearDown(self):
        self.folder.cleanup()

    def test_what_was_acknowledged_survives_a_kill(self):
        for turn in range(4):
            at = Bloomset(self.home)
            answer = at.ask("GET", "/documents/formula/kept")[1]
            revision, last = answer.get("revision", 0), answer.get("text", "")
            if turn:
                self.assertIn(last, (acknowledged, sent))
            killer = threading.Timer(0.3 + 0.2 * turn, at.process.kill)
            killer.start()
            own = http.client.HTTPConnection("127.0.0.1", at.port, timeout=60)
            acknowledged = sent = last
            try:
                for count in range(100_000):
                    sent = f"turn {turn}, save {count}"
                    condition = {"If-Match": f'"{revision}"'} if revision else {"If-None-Match": "*"}
                    status, saved, _ = at.ask("PUT", "/documents/formula/kept", {"text": sent}, condition, own)
                    self.assertEqual(status, 200)
                    revision, acknowledged = saved["revision"], sent
            except (OSError, http.client.HTTPException):
                pass
            killer.join()
            own.close()
            self.assertNotEqual(acknowledged, last, "nothing was saved before the kill")
            at.end()
        at = Bloomset(self.home)
        self.assertIn(at.ask("GET", "/documents/formula/kept")[1]["text"], (acknowledged, sent))
        self.assertEqual(at.end(), 0)
        subprocess.run([PROGRAM, "shelf", "check", "--shelf", str(self.home / "a.shelf")], check=True, capture_output=True, timeout=60)

    def test_signals_end_it_well(self):
        for number in (signal.SIGTERM, signal.SIGINT):
            at = Bloomset(self.home)
            idle = socket.create_connection(("127.0.0.1", at.port))
            long = socket.create_connection(("127.0.0.1", at.port))
            body = json.dumps({"text": HARBOUR, "draws": 20_000_000}).encode()
            long.sendall(f"POST /api/v1/scatter HTTP/1.1\r\nHost: {at.host}\r\nContent-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n".encode() + body)
            long.recv(100)
            begun = time.monotonic()
            at.process.send_signal(number)
            self.assertEqual(at.process.wait(timeout=20), 0)
            self.assertLess(time.monotonic() - begun, 10)
            idle.close()
            long.close()
            at.end()

    def test_closing_the_connection_cancels_the_work(self):
        at = Bloomset(self.home)
        body = json.dumps({"text": HARBOUR, "draws": 50_000_000}).encode()
        head = f"POST /api/v1/scatter HTTP/1.1\r\nHost: {at.host}\r\nContent-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n".encode()
        works = []
        for _ in range(4):
            works.append(socket.create_connection(("127.0.0.1", at.port)))
            works[-1].sendall(head + body)
            self.assertTrue(select.select([works[-1]], [], [], 20)[0])
        self.assertIn(b"HTTP/1.1 503 ", at.raw(head + body)[:20], "more than four at a time")
        self.assertEqual(at.ask("POST", "/sheet", {"text": HARBOUR})[0], 200)
        self.assertEqual(at.ask("POST", "/sheet", {"text": HARBOUR, "scatter": True})[0], 503)
        [one.close() for one in works]
        for _ in range(100):
            lines = at.ask("POST", "/scatter", {"text": HARBOUR, "draws": 64})
            if lines[0] == 200:
                break
            time.sleep(0.1)
        self.assertIn("done", lines[1][-1])
        self.assertEqual(at.end(), 0)

    def test_sheets_come_quickly(self):
        at = Bloomset(self.home)
        own = http.client.HTTPConnection("127.0.0.1", at.port, timeout=60)
        body = json.dumps({"text": HARBOUR}).encode()
        took, begun = [], time.monotonic()
        for number in range(1000):  # 200 a second for five seconds
            wait = begun + number / 200 - time.monotonic()
            if wait > 0:
                time.sleep(wait)
            start = time.monotonic()
            own.request("POST", "/api/v1/sheet", body, {"Content-Type": "application/json"})
            answer = own.getresponse()
            answer.read()
            self.assertEqual(answer.status, 200)
            took.append(1000 * (time.monotonic() - start))
        took.sort()
        print(f"sheet of demo 08 at 200 a second: median {took[500]:.2f} ms, p99 {took[990]:.2f} ms, worst {took[-1]:.2f} ms, load {os.getloadavg()[0]:.1f}")
        # Aim: 5 ms. Four times that on shared cores; where more wait for a core than there are, the slowest ones measure these and not the program.
        self.assertLess(took[500], 20)
        if os.getloadavg()[0] <= os.cpu_count():
            self.assertLess(took[990], 20)
        own.close()
        at.end()

    def test_what_the_command_line_refuses(self):
        for words in (["--port", "70000"], ["--port", "x"], ["--larder", "a.toml"]):
            done = subprocess.run([PROGRAM, "open", "--no-browser", "--shelf", str(self.home / "a.shelf"), *words], capture_output=True, text=True, timeout=30)
            self.assertEqual((done.returncode, done.stdout), (2, ""), words)
        done = subprocess.run([PROGRAM, "open", "--no-browser", "--shelf", str(self.home)], capture_output=True, text=True, timeout=30)
        self.assertEqual(done.returncode, 2)


class Lan(Open):
    options = ("--lan",)

    def test_other_devices_are_paired_first(self):
        told = ""
        while "pairing code" not in told:
            told += self.at.process.stdout.readline()
        self.assertIn("every device", told)
        code = re.search(r"pairing code (\d{6})", told).group(1)
        addresses = re.findall(r"http://([\d.]+):", told)
        if not addresses:
            self.skipTest("this machine has no address but the loopback")
        own = http.client.HTTPConnection(addresses[0], self.at.port, timeout=20)
        self.assertTrue(self.get("/hello")["lan"])  # over the loopback no pairing is asked for
        status, refused, _ = self.at.ask("GET", "/documents", connection=own)
        self.assertEqual((status, refused["error"]["kind"]), (401, "unpaired"))
        own.request("GET", "/")
        page = own.getresponse()
        self.assertEqual(page.status, 200, "the page itself, which asks for the code")
        page.read()
        wrong = "000000" if code != "000000" else "111111"
        self.assertEqual(self.at.ask("POST", "/pair", {"code": wrong}, connection=own)[0], 401)
        status, _, head = self.at.ask("POST", "/pair", {"code": code}, connection=own)
        self.assertEqual(status, 200)
        self.assertIn("HttpOnly", head["Set-Cookie"])
        self.assertIn("SameSite=Strict", head["Set-Cookie"])
        cookie = {"Cookie": head["Set-Cookie"].split(";")[0]}
        self.assertEqual(self.at.ask("GET", "/documents", None, cookie, own)[0], 200)
        self.assertEqual(self.at.ask("GET", "/documents", None, {"Cookie": "bloomset=" + "0" * 32}, own)[0], 401)
        self.assertEqual(self.at.ask("GET", "/documents", None, {**cookie, "Host": f"localhost:{self.at.port}"}, own)[0], 421)
        for _ in range(4):
            self.at.ask("POST", "/pair", {"code": wrong}, connection=own)
        self.assertEqual(self.at.ask("POST", "/pair", {"code": code}, connection=own)[0], 429)
        own.close()


if __name__ == "__main__":
    PROGRAM = str(pathlib.Path(sys.argv[1]).resolve())
    unittest.main(argv=[sys.argv[0], *sys.argv[2:]], verbosity=0)
