"""Our readers beside pdfium, pdfplumber, calamine and openpyxl, in one run on one core.

python beside_others.py AGAIN, with pypdfium2, pdfplumber, python-calamine, openpyxl, xlsxwriter and reportlab; AGAIN is the
example `again` of this crate, built in release. CPU seconds of each, the best of three. Prints the table of docs/bench/report.md.
"""
import os, random, resource, subprocess, sys, tempfile, time
AGAIN = sys.argv[1]
random.seed(7)
try: os.sched_setaffinity(0, {0})
except OSError: pass

NAMES = ["Calcium", "Magnesium", "Sodium", "Potassium", "Chloride", "Sulphate", "Nitrate as NO3", "Nitrite as NO2", "Ammonium as NH4", "Iron", "Manganese", "Copper", "Zinc", "Lead", "Boron", "Fluoride"]
WORDS = "water quality report zone supply works sample result treatment limit standard customer year average measured river bore reservoir mains pressure pipe household".split()

def value(): return f"{random.uniform(0.5, 120):.1f}"

def pdfs(folder, pages):
    from reportlab.lib.pagesizes import A4
    from reportlab.pdfgen import canvas
    text, tables = os.path.join(folder, "text.pdf"), os.path.join(folder, "tables.pdf")
    c = canvas.Canvas(text, pagesize=A4)
    for _ in range(pages):
        c.setFont("Helvetica", 10)
        for line in range(52): c.drawString(60, 780 - 14 * line, " ".join(random.choice(WORDS) for _ in range(13)))
        c.showPage()
    c.save()
    c = canvas.Canvas(tables, pagesize=A4)
    for page in range(pages):
        c.setFont("Helvetica", 9); c.drawString(60, 800, f"Zone {page + 1}")
        for i, row in enumerate([("Parameter", "Unit", "Limit", "Min", "Mean", "Max", "Samples")] + [(random.choice(NAMES), "mg/l", "250", value(), value(), value(), "12") for _ in range(44)]):
            for x, t in zip((60, 200, 260, 310, 360, 410, 460), row): c.drawString(x, 780 - 16 * i, t)
            c.line(60, 776 - 16 * i, 520, 776 - 16 * i)
        c.showPage()
    c.save()
    return text, tables

def workbook(folder, rows):
    import xlsxwriter
    path = os.path.join(folder, "rows.xlsx"); b = xlsxwriter.Workbook(path, {"constant_memory": False}); s = b.add_worksheet()
    for c, t in enumerate(("Date", "Sample point", "Determinand", "Result", "Units", "Limit", "Method")): s.write(0, c, t)
    for r in range(1, rows + 1):
        for c, t in enumerate(("2024-05-14", f"Point {r % 40}", random.choice(NAMES), round(random.uniform(0.5, 120), 2), "mg/l", 250, "ISO 1")): s.write(r, c, t)
    b.close()
    return path

def big_text(folder, megabytes):
    path = os.path.join(folder, "big.csv")
    with open(path, "w") as f:
        f.write("Date;Sample point;Determinand;Result;Units\n")
        r = 0
        while f.tell() < megabytes << 20: r += 1; f.write(f"2024-05-14;Point {r % 40};{random.choice(NAMES)};{value()};mg/l\n")
    return path, r

def ours(path, times=1):
    def run():
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        out = subprocess.run([AGAIN, path, str(times)], check=True, capture_output=True, text=True).stdout.strip()
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, out, after.ru_maxrss
    all = [run() for _ in range(3)]
    return min(a[0] for a in all) / times, all[0][1], all[0][2] / 1024

def theirs(work):
    def run():
        start = time.process_time(); work(); return time.process_time() - start
    return min(run() for _ in range(3))

def main():
    import pypdfium2, pdfplumber, openpyxl, python_calamine
    with tempfile.TemporaryDirectory() as d:
        pages, rows = 200, 100_000
        text, tables = pdfs(d, pages); book = workbook(d, rows); big, lines = big_text(d, 10)
        def pdfium(path):
            doc = pypdfium2.PdfDocument(path)
            for page in doc: page.get_textpage().get_text_range()
        def plumber(n):
            with pdfplumber.open(tables) as doc:
                for page in doc.pages[:n]: page.extract_tables()
        def calamine():
            for sheet in python_calamine.CalamineWorkbook.from_path(book).sheet_names: python_calamine.CalamineWorkbook.from_path(book).get_sheet_by_name(sheet).to_python()
        def pyxl():
            for row in openpyxl.load_workbook(book, read_only=True).active.iter_rows(values_only=True): pass
        t, told, _ = ours(text); print(f"| pages of text, 1/s | {pages / t:,.0f} | pdfium {pages / theirs(lambda: pdfium(text)):,.0f} | {told} |")
        t, told, _ = ours(tables); print(f"| pages of tables, 1/s | {pages / t:,.0f} | pdfplumber {20 / theirs(lambda: plumber(20)):,.0f}; pdfium, text alone, {pages / theirs(lambda: pdfium(tables)):,.0f} | {told} |")
        t, told, mb = ours(book); print(f"| rows of seven columns, 1/s | {rows / t:,.0f} | calamine from Python {rows / theirs(calamine):,.0f}; openpyxl {rows / theirs(pyxl):,.0f} | {told}; {mb:.0f} MB |")
        t, told, mb = ours(big); print(f"| 10 MB of CSV, s | {t:.1f} ({lines / t:,.0f} rows/s) | | {told}; {mb:.0f} MB |")

main()
