"""What a page costs over loopback, beside nginx with the same bytes in a file, in the same run.

  apt-get install nginx-light wrk
  cargo build --release && python3 docs/bench/pages.py [--rounds 5] [--seconds 3] [--clients 60]

A book in a file: the invented household, edited a thousand times, and 49 tanks beside it; measured once small (one tank, one
revision) and once so. Both servers on free ports of 127.0.0.1, one connection and sixteen, keep-alive, turn about in each round;
the median over the rounds of the median that wrk gives. "again" is a page that was written already; "another address" was never asked
for, so that the frame round a kept letter is written. "First after an edit" is the first page of a new revision, at once and a fifth of a second later, asked for by one
connection of this program itself, the file of nginx by the same program in turn. Last, a hundred clients for --clients seconds.
"""
import argparse, http.client, os, re, shutil, socket, statistics, subprocess, tempfile, time, urllib.error, urllib.parse, urllib.request

ap = argparse.ArgumentParser()
ap.add_argument("--tapmere", default="target/release/tapmere"); ap.add_argument("--seconds", type=int, default=3)
ap.add_argument("--rounds", type=int, default=5); ap.add_argument("--clients", type=int, default=60)
a = ap.parse_args()
NGINX = shutil.which("nginx") or "/usr/sbin/nginx"
PAGES = ["help-now", "tank/1/care", "tank/1/tap", "tank/1/salts", "tank/1/tank", "tank/1/log"]


def free():
    s = socket.socket(); s.bind(("127.0.0.1", 0)); p = s.getsockname()[1]; s.close(); return p


def us(s):
    v = float(re.match(r"[\d.]+", s)[0]); return v * (1 if s.endswith("us") else 1e3 if s.endswith("ms") else 1e6)


def wrk(url, c, *more, seconds=None):
    o = subprocess.run(["wrk", f"-t1", f"-c{c}", f"-d{seconds or a.seconds}s", "--latency", *more, url], capture_output=True, text=True).stdout
    assert "Non-2xx" not in o and "Socket errors" not in o, o
    return us(re.search(r"^\s+50%\s+([\d.]+\w+)", o, re.M)[1]), float(re.search(r"Requests/sec:\s+([\d.]+)", o)[1])


class Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *_): return None


def post(url, form, follow=True):
    origin = "http://" + urllib.parse.urlsplit(url).netloc
    r = urllib.request.Request(url, urllib.parse.urlencode(form).encode(), {"Origin": origin})
    if follow: return urllib.request.urlopen(r)
    try: urllib.request.build_opener(Stay).open(r)
    except urllib.error.HTTPError as e: assert e.code == 303, e.code


def load(): return open("/proc/loadavg").read().split()[0]


d = tempfile.mkdtemp(prefix="pages_"); os.chmod(d, 0o755); os.mkdir(d + "/www")
tp, np_ = free(), free(); base = f"http://127.0.0.1:{tp}"; book = d + "/book.tapmere"
open(d + "/anew.lua", "w").write('local n = 0\nrequest = function() n = n + 1; return wrk.format("GET", wrk.path .. "?n=" .. n .. "-" .. os.time()) end\n')
open(d + "/n.conf", "w").write(f"""worker_processes 1; daemon off; master_process off; pid {d}/pid; error_log {d}/err; events {{ worker_connections 256; }}
http {{ access_log off; keepalive_requests 100000000; default_type text/html; tcp_nodelay on; open_file_cache max=10;
 client_body_temp_path {d}/b; proxy_temp_path {d}/p; fastcgi_temp_path {d}/f; uwsgi_temp_path {d}/u; scgi_temp_path {d}/s;
 server {{ listen 127.0.0.1:{np_}; root {d}/www; }} }}""")


def measure(pages, title):
    print(f"\n## {title}\n\n| page | bytes | connections | again, µs | nginx, µs | ratio | another address, µs |\n|---|--:|--:|--:|--:|--:|--:|", flush=True)
    for page in pages:
        body = urllib.request.urlopen(f"{base}/{page}").read()
        f = page.replace("/", "-") + ".html"; open(f"{d}/www/{f}", "wb").write(body)
        for c in (1, 16):
            r = [(wrk(f"{base}/{page}", c), wrk(f"http://127.0.0.1:{np_}/{f}", c), wrk(f"{base}/{page}", c, "-s", d + "/anew.lua")) for _ in range(a.rounds)]
            m = [statistics.median(x[i][0] for x in r) for i in range(3)]
            print(f"| {page} | {len(body)} | {c} | {m[0]:.0f} | {m[1]:.0f} | {m[0] / m[1]:.2f} | {m[2]:.0f} |", flush=True)


def first_after_an_edit(pages, revision, pause, edits=20):
    """Median µs of the first GET of a revision and of nginx's file, asked for in turn `pause` s after the edit. Returns the revision it ends at."""
    print(f"\n| page | first, {pause} s after an edit, µs | nginx, µs | ratio |\n|---|--:|--:|--:|", flush=True)
    ours, file = http.client.HTTPConnection("127.0.0.1", tp), http.client.HTTPConnection("127.0.0.1", np_)

    def timed(c, path):
        t0 = time.perf_counter(); c.request("GET", path); r = c.getresponse(); r.read(); assert r.status == 200, (path, r.status)
        return (time.perf_counter() - t0) * 1e6

    for page in pages:
        m = []
        for _ in range(edits):
            post(f"{base}/tank/1/tap", {"do": "rewrite", "revision": revision, "tap.nitrate": "13" if revision % 2 else "15"}, follow=False); revision += 1
            time.sleep(pause); timed(file, "/" + page.replace("/", "-") + ".html")
            m.append((timed(ours, "/" + page), timed(file, "/" + page.replace("/", "-") + ".html")))
        x, y = (statistics.median(v[i] for v in m) for i in (0, 1))
        print(f"| {page} | {x:.0f} | {y:.0f} | {x / y:.2f} |", flush=True)
    return revision


n = subprocess.Popen([NGINX, "-p", d, "-c", d + "/n.conf", "-e", d + "/err"])
setup = open("examples/household/tank.toml").read()
t = None


def start():
    global t
    t = subprocess.Popen([a.tapmere, "open", book, "--port", str(tp)], stdout=subprocess.DEVNULL)
    for _ in range(100):
        try: return urllib.request.urlopen(base + "/help-now").read()
        except OSError: time.sleep(.05)


try:
    subprocess.run([a.tapmere, "demo", "--help"], check=True, stdout=subprocess.DEVNULL)
    start()
    form = dict(tap="unknown", glass="this", who="these", wish="comfortable")
    form.update({"glass.outer_length": "80", "glass.outer_width": "35", "glass.outer_height": "40", "unit.length": "centimetre",
                 "tap.hardness": "10", "tap.alkalinity": "6", "unit.hardness": "german", "tap.nitrate": "14", "unit.nitrate": "ion", "animals.fish": "12"})
    post(base + "/first", form)
    print(f"load {load()}")
    measure(PAGES, "One tank, one revision")
    revision = first_after_an_edit(PAGES, first_after_an_edit(PAGES, 1, 0), 0.2)
    for i in range(1000 - revision):
        post(f"{base}/tank/1/tap", {"do": "rewrite", "revision": revision, "tap.nitrate": "13" if revision % 2 else "15"}); revision += 1
    for i in range(49):
        post(base + "/first", dict(form, **{"tank.name": f"Tank {i + 2}", "tanks": str(i + 1)}))
    print(f"\nload {load()}, book {os.path.getsize(book) >> 10} KiB")
    measure(PAGES, "50 tanks, 1,000 revisions of the first")
    first_after_an_edit(PAGES, first_after_an_edit(PAGES, revision, 0), 0.2)
    half, rate = wrk(f"{base}/tank/1/salts", 100, seconds=a.clients)
    print(f"\nA hundred clients for {a.clients} s: {rate:.0f} pages a second, half within {half:.0f} µs, no error.")
    half, rate = wrk(f"{base}/tank/1/salts", 100, "-s", d + "/anew.lua", seconds=a.clients)
    print(f"The same, each with another address: {rate:.0f} pages a second, half within {half:.0f} µs, no error.")
finally:
    if t: t.terminate(); t.wait()
    n.terminate(); n.wait(); shutil.rmtree(d, ignore_errors=True)
