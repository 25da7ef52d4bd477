"""Answers questions of the Go tests, one line of JSON each, with numpy, scipy and mpmath."""

import json
import sys

import mpmath
import numpy
import scipy
import scipy.integrate
import scipy.optimize
import scipy.stats

mpmath.mp.dps = 60


def versions():
    return {"numpy": numpy.__version__, "scipy": scipy.__version__, "mpmath": mpmath.__version__}


# Special functions, to 60 digits and then rounded once to a float.

def _beta(a, b, x):
    return mpmath.betainc(a, b, 0, x, regularized=True)


def _student_cdf(t, dof):
    tail = _beta(dof / 2, mpmath.mpf(1) / 2, dof / (dof + t * t)) / 2
    return tail if t < 0 else 1 - tail


SPECIAL = {
    "exp": mpmath.exp,
    "expm1": mpmath.expm1,
    "log": mpmath.log,
    "log1p": mpmath.log1p,
    "pow": mpmath.power,
    "sin": mpmath.sin,
    "cos": mpmath.cos,
    "tan": mpmath.tan,
    "erf": mpmath.erf,
    "erfc": mpmath.erfc,
    "loggamma": mpmath.loggamma,
    "normal_pdf": mpmath.npdf,
    "normal_cdf": mpmath.ncdf,
    "gamma_p": lambda a, x: mpmath.gammainc(a, 0, x, regularized=True),
    "gamma_q": lambda a, x: mpmath.gammainc(a, x, regularized=True),
    "beta": _beta,
    "student_cdf": _student_cdf,
    "student_pdf": lambda t, dof: mpmath.gamma((dof + 1) / 2) / mpmath.gamma(dof / 2)
    / mpmath.sqrt(dof * mpmath.pi) * (1 + t * t / dof) ** (-(dof + 1) / 2),
}


def special(name, points):
    return [float(SPECIAL[name](*[mpmath.mpf(x) for x in p])) for p in points]


def quantiles(name, points):
    p = numpy.array([x[0] for x in points])
    rest = [numpy.array([x[i] for x in points]) for i in range(1, len(points[0]))]
    law = {"normal": scipy.stats.norm, "student": scipy.stats.t, "chi_square": scipy.stats.chi2}[name]
    return law.ppf(p, *rest).tolist()


def gauss(name, n):
    if name == "legendre":
        return [a.tolist() for a in numpy.polynomial.legendre.leggauss(n)]
    x, w = numpy.polynomial.hermite_e.hermegauss(n)
    return [x.tolist(), (w / w.sum()).tolist()]


# Exchange.

def two_zones(cases):
    """All cases at once: drains and refills by balance of old fluid, runs of the gears by integration in time."""
    S, H = (numpy.array([c[k] for c in cases]) for k in ("sump", "held"))
    k = numpy.array([c["flow"] * c["minutes"] for c in cases])  # litres exchanged by one run
    d = numpy.array([c["drains"] for c in cases])
    c_in = numpy.array([c["refills"] for c in cases])
    s, h = numpy.ones(len(cases)), numpy.ones(len(cases))
    rows = []

    def run(_, y):
        a, b = y[: len(s)], y[len(s):]
        return numpy.concatenate([k * (b - a) / S, k * (a - b) / H])

    for i in range(d.shape[1]):
        drained = s
        s = ((S - d[:, i]) * s + d[:, i] * c_in[:, i]) / S
        total = (S * s + H * h) / (S + H)
        end = scipy.integrate.solve_ivp(run, (0, 1), numpy.concatenate([s, h]), method="DOP853", rtol=1e-12, atol=1e-15)
        s, h = end.y[: len(s), -1], end.y[len(s):, -1]
        rows.append([drained.tolist(), total.tolist(), s.tolist(), h.tolist()])
    return rows


def long_run(cases):
    """Eigenvalues of one cycle, built column by column from its effect on each zone."""
    out = []
    for c in cases:
        S, H, d, m = c["sump"], c["held"], c["drain"], c["mixing"]

        def cycle(v):
            s, h = v[0] * (S - d) / S, v[1]
            mean = (S * s + H * h) / (S + H)
            return [s + m * (mean - s), h + m * (mean - h)]

        A = numpy.array([cycle([1, 0]), cycle([0, 1])]).T
        values = numpy.linalg.eigvals(A)
        out.append(sorted((float(v.real) for v in values), reverse=True))
    return out


def tanks(cases):
    """Old share left in, and leaving, tanks in series: the mean over tanks of Poisson probabilities."""
    out = []
    for n, theta in cases:
        rate = mpmath.mpf(n) * mpmath.mpf(theta)
        term, below, total = mpmath.exp(-rate), mpmath.mpf(0), mpmath.mpf(0)
        for k in range(n):
            below += term
            total += below
            term *= rate / (k + 1)
        out.append([float(total / n), float(below)])
    return out


def poisson(cases):
    """The same two from scipy's own Poisson distribution."""
    n = numpy.array([c[0] for c in cases])
    x = scipy.stats.poisson(n * numpy.array([c[1] for c in cases]))
    theta = numpy.array([c[1] for c in cases])
    return [(x.cdf(n) - theta * x.cdf(n - 1)).tolist(), x.cdf(n - 1).tolist()]


def _moments(age, share):
    mean = numpy.sum(age * share)
    return [float(mean), float(numpy.sqrt(max(numpy.sum(age * age * share) - mean * mean, 0)))]


def cohorts(lengths, drains, ages):
    """Follow every filling as a cohort of its own until hardly any of the first is left."""
    age, share = numpy.zeros(1), numpy.ones(1)
    while True:
        result, area = [], 0.0
        for length, shares in zip(lengths, drains):
            area += length * (numpy.sum(age * share) + length / 2)
            age = age + length
            row = {"before": _moments(age, share), "old_before": [float(numpy.sum(share[age >= a])) for a in ages]}
            for d in shares:
                share = numpy.append(share * (1 - d), d)
                age = numpy.append(age, 0.0)
            row["after"] = _moments(age, share)
            row["old_after"] = [float(numpy.sum(share[age >= a])) for a in ages]
            result.append(row)
        keep = share > 1e-25
        if share[0] < 1e-18:
            return {"services": result, "mean": area / sum(lengths)}
        age, share = age[keep], share[keep]


def topped_up(lengths, drains, rate):
    """Moments of age with a slow top-up: integrals of the share that has outlived each age."""
    kept = [float(numpy.prod([1 - d for d in shares])) for shares in drains]
    result = []
    for i in range(len(lengths)):
        moments = []
        for done in (i, i + 1):  # just before, just after
            alive, from_age, first, second = 1.0, 0.0, 0.0, 0.0
            if done == i + 1:
                alive = kept[i]  # what the service brought has age 0
            to = lengths[i]
            position = i
            while alive * numpy.exp(-rate * from_age) > 1e-22:
                end = from_age + to
                f = lambda a: alive * numpy.exp(-rate * a)
                first += scipy.integrate.quad(f, from_age, end, epsabs=0, epsrel=1e-12)[0]
                second += scipy.integrate.quad(lambda a: 2 * a * f(a), from_age, end, epsabs=0, epsrel=1e-12)[0]
                position = (position - 1) % len(lengths)
                alive *= kept[position]
                from_age, to = end, lengths[position]
            moments.append([first, float(numpy.sqrt(max(second - first * first, 0)))])
        result.append(moments)
    return result


def capacity(cases):
    out = []
    for c in cases:
        y, d = numpy.array(c["readings"]) - c["fresh"], numpy.array(c["drains"])
        w = numpy.array(c["weights"])
        n = numpy.arange(len(y))

        def left(n, C):
            return numpy.array([numpy.prod(1 - d[: int(k)] / C) for k in n])

        absolute = c["reading_u"] > 0
        sigma = (c["reading_u"] if absolute else 1) / numpy.sqrt(w)
        if c["noise"] == "relative":
            model, seen = lambda n, a, C: a + numpy.log(left(n, C)), numpy.log(y)
            begin = [numpy.log(y[0]), c["start"]]
        else:
            model, seen = lambda n, a, C: a * left(n, C), y
            begin = [y[0], c["start"]]
        best, cov = scipy.optimize.curve_fit(model, n, seen, p0=begin, sigma=sigma, absolute_sigma=absolute,
                                             ftol=1e-15, xtol=1e-15, gtol=1e-15, maxfev=20000)
        out.append([float(best[1]), float(numpy.sqrt(cov[1, 1]))])
    return out


def line(cases):
    """numpy's straight line through ln(marker): slope, its standard error, and that of the bend beside it."""
    out = []
    for c in cases:
        y = numpy.log(numpy.array(c["readings"]))
        p, cov = numpy.polyfit(numpy.arange(len(y)), y, 1, cov=True)
        row = [float(p[0]), float(numpy.sqrt(cov[0, 0])), float(p[1])]
        q, cov2 = numpy.polyfit(numpy.arange(len(y)), y, 2, cov=True)
        out.append(row + [float(2 * q[0]), float(2 * numpy.sqrt(cov2[0, 0]))])
    return out


def planned(cases):
    """Ends of the interval of (1 - d/C)^n, C and d each equally likely in their ranges, by quadrature."""
    out = []
    for c in cases:
        (C0, C1), (d0, d1), n = c["capacity"], c["drain"], c["cycles"]

        def cdf(x):
            def given(C):
                return min(max((d1 - C * (1 - x ** (1 / n))) / (d1 - d0), 0), 1)

            kinks = [d / (1 - x ** (1 / n)) for d in (d0, d1)]
            kinks = [k for k in kinks if C0 < k < C1]
            return scipy.integrate.quad(given, C0, C1, points=kinks or None, epsabs=1e-13, epsrel=1e-12)[0] / (C1 - C0)

        low, high = (1 - d1 / C0) ** n, (1 - d0 / C1) ** n
        out.append([scipy.optimize.brentq(lambda x: cdf(x) - p, low, high, xtol=1e-15) for p in c["p"]])
    return out


def milp(cases):
    """Least cost, then least volume, then fewest containers, each by an integer programme of its own."""
    out = []
    for c in cases:
        size, price = numpy.array(c["sizes"], float), numpy.array(c["prices"], float)
        most = [numpy.inf if m == 0 else m for m in c["most"]]
        rows = [scipy.optimize.LinearConstraint(size, c["need"] - 0.25, numpy.inf)]
        answer = []
        for goal in (price, size, numpy.ones(len(size))):
            r = scipy.optimize.milp(goal, constraints=rows, integrality=numpy.ones(len(size)),
                                    bounds=scipy.optimize.Bounds(0, most), options={"mip_rel_gap": 0})
            if r.x is None:
                answer = None
                break
            counts = numpy.round(r.x)
            answer.append(int(numpy.round(goal @ counts)))
            rows.append(scipy.optimize.LinearConstraint(goal, -numpy.inf, answer[-1] + 0.25))
        out.append(answer)
    return out


def budget(cases):
    """Most fluid for the money, then least cost, then fewest containers."""
    out = []
    for c in cases:
        size, price = numpy.array(c["sizes"], float), numpy.array(c["prices"], float)
        bounds = scipy.optimize.Bounds(0, [numpy.inf if m == 0 else m for m in c["most"]])
        rows = [scipy.optimize.LinearConstraint(price, -numpy.inf, c["need"] + 0.25)]
        answer = []
        for goal, sign in ((size, -1), (price, 1), (numpy.ones(len(size)), 1)):
            r = scipy.optimize.milp(sign * goal, constraints=rows, integrality=numpy.ones(len(size)), bounds=bounds,
                                    options={"mip_rel_gap": 0})
            answer.append(int(numpy.round(goal @ numpy.round(r.x))))
            low, high = (answer[-1] - 0.25, numpy.inf) if sign < 0 else (-numpy.inf, answer[-1] + 0.25)
            rows.append(scipy.optimize.LinearConstraint(goal, low, high))
        out.append(answer)
    return out


def pan(cases):
    """Contents of a rectangular pan, the depth under the tilted surface held between floor and roof."""
    out = []
    for c in cases:
        slope = numpy.tan(numpy.radians(c["degrees"]))
        spill = c["hole"] - numpy.sign(c["degrees"]) * c["rim"]

        def depth(s):
            # Up at s, the floor has risen by s·tan t and so has the lip at the hole.
            return min(max(c["lip"] + (spill - s) * slope, 0), c["roof"] or numpy.inf)

        kinks = []
        if slope:
            kinks = [spill + c["lip"] / slope] + ([spill + (c["lip"] - c["roof"]) / slope] if c["roof"] else [])
        half = c["length"] / 2
        kinks = [k for k in kinks if -half < k < half]
        area = scipy.integrate.quad(depth, -half, half, points=kinks or None, epsabs=1e-14, epsrel=1e-13)[0]
        out.append(1000 * c["width"] * area)
    return out


def outlines(cases):
    """Left in by a tilt for outlines of any shape: the depth integrated over a polygon, less that on the level."""
    out = []
    for c in cases:
        x, y = (numpy.array(v) for v in (c["x"], c["y"]))
        slope = numpy.tan(numpy.radians(c["degrees"]))
        # A polygon is a sum of signed triangles from the origin; Gauss's rule with three points is exact here.
        volume = area = moment = 0.0
        for i in range(len(x)):
            j = (i + 1) % len(x)
            t = (x[i] * y[j] - x[j] * y[i]) / 2
            mids = [x[i] / 2, x[j] / 2, (x[i] + x[j]) / 2]
            volume += t * sum((c["hole"] - m) * slope for m in mids) / 3
            area += t
            moment += t * sum(mids) / 3
        out.append([1000 * volume, area, moment / area])
    return out


def ellipse(cases):
    """The same for an ellipse off the middle, by double integration."""
    out = []
    for a, b, middle, hole, degrees in cases:
        slope = numpy.tan(numpy.radians(degrees))
        v, _ = scipy.integrate.quad(
            lambda p: 2 * b * numpy.cos(p) ** 2 * a * (hole - middle - a * numpy.sin(p)) * slope,
            -numpy.pi / 2, numpy.pi / 2, epsabs=1e-14, epsrel=1e-13)
        out.append(1000 * v)
    return out


# Heat.

def factors(cases):
    out = []
    for rho, t in cases:
        alpha = mpmath.mpf("0.6278") / mpmath.mpf(rho)
        dt = mpmath.mpf(t) - 15
        out.append(float(mpmath.exp(-alpha * dt * (1 + mpmath.mpf("0.8") * alpha * dt))))
    return out


def converted(cases):
    """Volume brought from one temperature to another, and its doubt to first order by derivatives at 60 digits."""
    out = []
    for rho, relative, v, uv, a, ua, b, ub in cases:
        def law(k, t):
            alpha = mpmath.mpf("0.6278") / mpmath.mpf(rho) * k
            dt = t - 15
            return -alpha * dt * (1 + mpmath.mpf("0.8") * alpha * dt)

        def volume(v, k, a, b):  # one coefficient, shared by both corrections
            return v * mpmath.exp(law(k, a) - law(k, b))

        at = [mpmath.mpf(x) for x in (v, 1, a, b)]
        total = mpmath.mpf(0)
        for i, u in enumerate((uv, relative, ua, ub)):
            total += (mpmath.diff(lambda z: volume(*(at[:i] + [z] + at[i + 1:])), at[i]) * mpmath.mpf(u)) ** 2
        out.append([float(volume(*at)), float(mpmath.sqrt(total))])
    return out


def density15(cases):
    """Density at 15 °C from one observed, by a general root finder."""
    out = []
    for rho, t in cases:
        dt = mpmath.mpf(t) - 15

        def off(x):
            alpha = mpmath.mpf("0.6278") / x
            return x * mpmath.exp(-alpha * dt * (1 + mpmath.mpf("0.8") * alpha * dt)) - mpmath.mpf(rho)

        out.append(float(mpmath.findroot(off, mpmath.mpf(rho))))
    return out


def ctl2004(cases):
    """The 2004 form, written in one go at 60 digits."""
    a = [mpmath.mpf(s) for s in ("-0.148759", "-0.267408", "1.080760", "1.269056", "-4.089591", "-1.871251", "7.438081", "-3.536296")]
    out = []
    for rho, k0, k1, k2, fahrenheit in cases:
        rho, k0, k1, k2 = (mpmath.mpf(v) for v in (rho, k0, k1, k2))
        t90 = (mpmath.mpf(fahrenheit) - 32) / mpmath.mpf("1.8")
        tau = t90 / 630
        t68 = t90 - sum(c * tau ** (i + 1) for i, c in enumerate(a))
        f68 = t68 * mpmath.mpf("1.8") + 32
        d60 = mpmath.mpf("0.01374979547")
        A = d60 / 2 * ((k0 / rho + k1) / rho + k2)
        B = (2 * k0 + k1 * rho) / (k0 + (k1 + k2 * rho) * rho)
        star = rho * (1 + (mpmath.exp(A * (1 + mpmath.mpf("0.8") * A)) - 1) / (1 + A * (1 + mpmath.mpf("1.6") * A) * B))
        alpha = (k0 / star + k1) / star + k2
        D = f68 - mpmath.mpf("60.0068749")
        out.append([float(f68), float(star), float(alpha), float(mpmath.exp(-alpha * D * (1 + mpmath.mpf("0.8") * alpha * (D + d60))))])
    return out


def warming(cases):
    """Time constant from numpy's weighted line through ln(gap), and the course from an integrator."""
    out = []
    for c in cases:
        gap = numpy.abs(c["plateau"] - numpy.array(c["readings"]))
        slope, start = numpy.polyfit(c["seconds"], numpy.log(gap), 1, w=gap)
        out.append([float(-1 / slope), float(numpy.exp(start))])
    return out


def lumped(cases):
    out = []
    for start, plateau, tau, at in cases:
        r = scipy.integrate.solve_ivp(lambda _, T: (plateau - T) / tau, (0, at), [start], method="DOP853", rtol=1e-12, atol=1e-12)
        out.append(float(r.y[0, -1]))
    return out


# Doubt.

MODELS = {
    "share": lambda m, x: (1 - x[1] / x[0]) * (1 - x[2] / x[0]) * (1 - x[3] / x[0]),
    "correction": lambda m, x: x[0] * m.exp(-x[1] * (x[2] - 15)),
    "ratio": lambda m, x: x[0] * x[1] / (x[2] + x[3] * x[3]),
    "lever": lambda m, x: x[0] * x[1] / (x[1] + x[2] * m.cos(x[3])),
}


def propagate(cases):
    """First order, the derivatives at 60 digits."""
    out = []
    for c in cases:
        at = [mpmath.mpf(v) for v in c["values"]]
        total = mpmath.mpf(0)
        slopes = []
        for i, u in enumerate(c["u"]):
            f = lambda z: MODELS[c["model"]](mpmath, at[:i] + [z] + at[i + 1:])
            slopes.append(mpmath.diff(f, at[i]))
            total += (slopes[-1] * mpmath.mpf(u)) ** 2
        out.append([float(MODELS[c["model"]](mpmath, at)), float(mpmath.sqrt(total))] + [float(s) for s in slopes])
    return out


def combined(cases):
    """Standard uncertainty, effective degrees of freedom and coverage factor of independent terms."""
    out = []
    for c in cases:
        u, dof = numpy.array(c["u"]), numpy.array(c["dof"], float)
        dof[dof == 0] = numpy.inf
        total = numpy.sqrt(numpy.sum(u ** 2))
        effective = total ** 4 / numpy.sum(u ** 4 / dof) if numpy.isfinite(dof).any() else numpy.inf
        effective = effective if effective <= 1e9 else numpy.inf  # as the library says of itself
        whole = numpy.floor(effective * (1 + 1e-12))
        k = scipy.stats.t.ppf((1 + c["p"]) / 2, whole) if numpy.isfinite(whole) else scipy.stats.norm.ppf((1 + c["p"]) / 2)
        out.append([float(total), float(effective) if numpy.isfinite(effective) else 0.0, float(k)])
    return out


def observed(cases):
    return [[float(numpy.mean(x)), float(scipy.stats.sem(x))] for x in cases]


def weighted_mean(cases):
    """Mean with weights 1/u², and its doubt from the covariance matrix of readings with one shared cause."""
    out = []
    for c in cases:
        x, u, shared = (numpy.array(c[k]) for k in ("x", "u", "shared"))
        cov = numpy.diag(u ** 2) + numpy.outer(shared, shared)
        w = 1 / numpy.diag(cov)
        w = w / w.sum()
        out.append([float(numpy.average(x, weights=w)), float(numpy.sqrt(w @ cov @ w))])
    return out


def _draw(rng, shape, n, dof):
    if shape == "normal":
        return rng.standard_normal(n)
    if shape == "rectangular":
        return rng.uniform(-1, 1, n) * numpy.sqrt(3)
    if shape == "triangular":
        return rng.triangular(-1, 0, 1, n) * numpy.sqrt(6)
    if shape == "arcsine":
        return numpy.sin(rng.uniform(-numpy.pi, numpy.pi, n)) * numpy.sqrt(2)
    return rng.standard_t(dof, n)  # as JCGM 101:2008 6.4.9 has it: scaled by u, its standard deviation is larger


def monte_carlo(cases):
    out = []
    for c in cases:
        rng = numpy.random.default_rng(c["seed"])
        x = [v + u * _draw(rng, s, c["trials"], c["dof"]) for v, u, s in zip(c["values"], c["u"], c["shapes"])]
        y = MODELS[c["model"]](numpy, x)
        out.append({"mean": float(y.mean()), "sd": float(y.std()), "quantiles": numpy.quantile(y, c["p"]).tolist()})
    return out


def mixture(cases):
    """Probability of each x: a normal distribution averaged over the capacity by quadrature."""
    out = []
    for c in cases:
        def given(C, x):
            left = 1 - c["drain"] / C
            e = c["u"] / C / left
            mean = left ** c["cycles"]
            sd = mean * numpy.sqrt((1 + e * e) ** c["cycles"] - 1)
            return scipy.stats.norm.cdf(x, mean, sd)

        low, high = c["capacity"]
        row = []
        for x in c["x"]:
            pieces = numpy.linspace(low, high, 17)
            row.append(sum(scipy.integrate.quad(given, a, b, args=(x,), epsabs=1e-13, epsrel=1e-12)[0]
                           for a, b in zip(pieces, pieces[1:])) / (high - low))
        out.append(row)
    return out


def shapes(cases):
    """Distribution and quantile of each shape with mean 0 and the standard deviation given."""
    out = []
    for shape, u, dof, x, p in cases:
        law = {
            "normal": scipy.stats.norm(0, u),
            "rectangular": scipy.stats.uniform(-u * numpy.sqrt(3), 2 * u * numpy.sqrt(3)),
            "triangular": scipy.stats.triang(0.5, -u * numpy.sqrt(6), 2 * u * numpy.sqrt(6)),
            "student": scipy.stats.t(dof or 1, 0, u),
        }[shape]
        out.append([float(law.cdf(x)), float(law.ppf(p))])
    return out


def main():
    for line in sys.stdin:
        try:
            question = json.loads(line)
            answer = {"answer": globals()[question["ask"]](**question["with"])}
            text = json.dumps(answer, allow_nan=False)
        except Exception as e:  # told to the test that asked
            text = json.dumps({"error": "%s: %s" % (type(e).__name__, e)})
        sys.stdout.write(text + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
