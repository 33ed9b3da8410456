#!/usr/bin/env python3
"""load.py PROGRAM [SECONDS] - how `bloomset open` holds under load: /sheet of demo 08 by wrk, 64 connections, and what memory it takes meanwhile.

Prints requests a second, latencies and the resident memory before, half way and after; exits 1 if an answer was not 200, a connection failed, or memory
grew by more than a quarter from half way to the end. Run by hand on a machine that does nothing else; wrk (Debian: wrk) takes one of its cores.
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[1]


def resident_mb(process):
    text = pathlib.Path(f"/proc/{process.pid}/status").read_text()
    return int(re.search(r"VmRSS:\s+(\d+)", text).group(1)) / 1024


def main():
    program, seconds = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 30
    body = json.dumps({"text": (ROOT / "demo/08-harbour-light.toml").read_text(encoding="utf-8")})
    with tempfile.TemporaryDirectory() as home:
        script = pathlib.Path(home) / "sheet.lua"
        script.write_text(f'wrk.method = "POST"\nwrk.headers["Content-Type"] = "application/json"\nwrk.body = [==[{body}]==]\n')
        server = subprocess.Popen([program, "open", "--port", "0", "--shelf", f"{home}/a.shelf", "--no-browser"], stdout=subprocess.PIPE, text=True)
        try:
            address = server.stdout.readline().split()[-1]
            memory = [resident_mb(server)]
            load = subprocess.Popen(["wrk", "-t1", "-c64", f"-d{seconds}s", "--timeout", "10s", "--latency", "-s", str(script), address + "/api/v1/sheet"],
                                    stdout=subprocess.PIPE, text=True)
            time.sleep(seconds / 2)
            memory.append(resident_mb(server))
            told = load.communicate()[0]
            memory.append(resident_mb(server))
        finally:
            server.terminate()
            code = server.wait(timeout=30)
    print(told, end="")
    print("resident: " + ", ".join(f"{m:.1f} MB" for m in memory) + " (before, half way, after)")
    failed = "Non-2xx" in told or "Socket errors" in told or code != 0 or memory[2] > 1.25 * memory[1]
    print("failed" if failed else "no error")
    return failed


if __name__ == "__main__":
    sys.exit(main())
