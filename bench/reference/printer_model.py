"""The RGB printer model in numpy, written apart from the product's: device RGB (0..1) -> L*a*b* (D50, 2 degrees).
`python3 printer_model.py CHART.txt WEIGHTS.csv` prints the check values that bench topic `model` holds the product to (needs numpy
and scipy). The weights are rows of nm, x, y, z; the white is 96.422, 100, 82.521."""
import csv, re, sys
import numpy as np
from scipy.linalg import cho_factor, cho_solve

NOISE, RIDGE = .004, dict(var=.02, length=.2, width=.035)
CURVE, TABLE = dict(step=8, var=.5, reach=2 / 255), dict(step=16, var=.002)

def warp(x): return 1 - (1 - np.clip(x, 0, 1) ** .52 + 1e-12) ** .70
def matern(s): return (1 + s + s * s / 3) * np.exp(-s)

def features(x):
    w = warp(x)
    return np.c_[w / [.52, .46, .55], w.max(1) / 1.1]

def near(x): return np.exp(-((x.max(1) - x.min(1)) / RIDGE['width']) ** 2)

def curves(x, slope):
    """What a level of error at each node of each channel's curve moves L*, a*, b* by: three lists of rows."""
    v = x * 255 / CURVE['step']; i = v.astype(int); m = 33; w = np.zeros((3, len(x), 3 * m)); r = np.arange(len(x))
    for c in range(3):
        low, high = x.copy(), x.copy(); low[:, c] = np.maximum(0, x[:, c] - CURVE['reach']); high[:, c] = np.minimum(1, x[:, c] + CURVE['reach'])
        move = (trend(warp(high)) - trend(warp(low))) @ slope / ((high - low)[:, c] * 255)[:, None] * (1 - near(x))[:, None]
        for k in range(3):
            w[k, r, c * m + i[:, c]] += move[:, k] * (1 - (v - i)[:, c]); w[k, r, c * m + i[:, c] + 1] += move[:, k] * (v - i)[:, c]
    return w

def table_nodes(x):
    v = x * 255 / TABLE['step']; i = v.astype(int); f = v - i; m = 18; w = np.zeros((len(x), m ** 3)); r = np.arange(len(x))
    o = np.argsort(-f, 1); s = np.take_along_axis(f, o, 1); s = np.c_[np.ones(len(x)), s, np.zeros(len(x))]; j = i.copy()
    for k in range(4):
        w[r, (j[:, 0] * m + j[:, 1]) * m + j[:, 2]] += s[:, k] - s[:, k + 1]
        if k < 3: j[r, o[:, k]] += 1
    return w

def kernel(a, b):
    s = np.sqrt(5 * ((features(a)[:, None] - features(b)[None]) ** 2).sum(2))
    u = np.sqrt(5) * abs(warp(a).mean(1)[:, None] - warp(b).mean(1)[None]) / RIDGE['length']
    return (matern(s) + RIDGE['var'] * matern(u) * near(a)[:, None] * near(b)[None]
            + TABLE['var'] * table_nodes(a) @ table_nodes(b).T * (1 - near(a))[:, None] * (1 - near(b))[None])

def trend(x): return np.stack([np.ones(len(x)), *x.T] + [x[:, i] * x[:, j] for i in range(3) for j in range(i, 3)], 1)

def fit(x, lab, count):
    mean, sd, n = lab.mean(0), lab.std(0), (1 + np.hypot(lab[:, 1], lab[:, 2]) / 120) * (1 + 4 * np.exp(-lab[:, 0] / 15))
    f = cho_factor(kernel(x, x) + np.diag(NOISE * n / n.mean() / count), lower=True); p, y = trend(x), (lab - mean) / sd
    q = trend(warp(x)); slope = np.linalg.solve(q.T @ q + 1e-3 * np.eye(10), q.T @ y)
    b = curves(x, slope); g = np.diag(np.r_[np.zeros(30), np.full(b.shape[2], 1 / CURVE['var'])]); r = np.zeros(len(g))
    for k in range(3):   # all three outputs at once: a trend for each, one error a node for all
        z = np.zeros((len(x), len(g))); z[:, 10 * k:10 * k + 10] = p; z[:, 30:] = b[k]
        cz = cho_solve(f, z); g += z.T @ cz; r += cz.T @ y[:, k]
    t = np.linalg.solve(g, r)
    alpha = cho_solve(f, np.stack([y[:, k] - p @ t[10 * k:10 * k + 10] - b[k] @ t[30:] for k in range(3)], 1))
    return lambda z: (kernel(z, x) @ alpha + np.stack([trend(z) @ t[10 * k:10 * k + 10] + curves(z, slope)[k] @ t[30:] for k in range(3)], 1)) * sd + mean

def read(path, weights):
    t = open(path, encoding='latin1').read().replace('\r\n', '\n')
    names = re.search(r'BEGIN_DATA_FORMAT\s*(.*?)\s*END_DATA_FORMAT', t, re.S).group(1).split()
    rows = [r.split() for r in re.search(r'BEGIN_DATA[ \t]*\n(.*?)\nEND_DATA\b', t, re.S).group(1).split('\n') if r.strip()]
    w = {}
    for nm, *v in (map(float, r) for r in csv.reader(open(weights)) if r and r[0][:1].isdigit()):
        k = int(min(max(nm, 380), 730)); w[k] = w.get(k, 0) + np.array(v)
    nm = sorted(w); col = [next(i for i, n in enumerate(names) if n.endswith(str(k)) and 'NM' in n) for k in nm]
    rgb = np.array([[float(r[names.index(c)]) for c in ('RGB_R', 'RGB_G', 'RGB_B')] for r in rows]) / 255
    q = np.array([[float(r[i]) for i in col] for r in rows]) @ np.array([w[k] for k in nm]) / [96.422, 100., 82.521]
    f = np.where(q > 216 / 24389, np.cbrt(q), (24389 / 27 * q + 16) / 116)
    lab = np.c_[116 * f[:, 1] - 16, 500 * (f[:, 0] - f[:, 1]), 200 * (f[:, 1] - f[:, 2])]
    u, inv, n = np.unique(rgb, axis=0, return_inverse=True, return_counts=True); inv = inv.ravel()
    return u, np.stack([np.bincount(inv, lab[:, k]) / n for k in range(3)], 1), n

if __name__ == '__main__':
    predict = fit(*read(*sys.argv[1:3]))
    for rgb in ((128, 128, 128), (10, 10, 10), (255, 0, 0), (200, 150, 120), (30, 60, 200)):
        print(rgb, predict(np.array([rgb]) / 255)[0].round(3))
