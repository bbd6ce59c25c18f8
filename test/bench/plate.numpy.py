"""The plate solver's scheme in vectorised numpy: enthalpy form, TR-BDF2, conjugate gradients, error estimate.

Same equations, tables, tolerances and steps (the job names them) as lib/heatflow/plate. One thing differs by need: an
incomplete Cholesky factor works cell after cell and does not vectorise, so the conjugate gradients are preconditioned
by the diagonal, the best that whole-array operations offer here. Work arrays are allocated once and operations write
into them. Reads a job as JSON on stdin; prints JSON: processor seconds, iterations, highest temperatures read.
"""
import json
import sys
import time

import numpy as np

job = json.load(sys.stdin)
GAMMA = 2 - np.sqrt(2)
STAGE = GAMMA / 2
FROM_MIDDLE = 1 / (GAMMA * (2 - GAMMA))
FROM_START = (1 - GAMMA) ** 2 / (GAMMA * (2 - GAMMA))
OUTER = np.sqrt(2) / 4
WEIGHTS = (OUTER - (1 - OUTER) / 3, OUTER - (3 * OUTER + 1) / 3, 2 * STAGE / 3)
SOLVER_SHARE, POOL_SHARE = 0.1, 0.2
SIGMA = 5.670374419e-14
ZERO_C = 273.15

columns, rows, layers, cell = job["columns"], job["rows"], job["layers"], job["cellMm"]
shape = (layers, rows, columns)
thickness = np.array(job["thicknessMm"]).reshape(shape)
table = np.array(job["table"]).reshape(-1, 5)
bins = len(table)
start_t, slope_t, capacity_bin, start_k, slope_k = (np.ascontiguousarray(table[:, i]) for i in range(5))
volume = np.where(thickness > 0, thickness * cell**2, 1)
bins_per_joule = 1 / (job["heatPerBin"] * volume)
air_area = np.array(job["airArea"]).reshape(shape)
kd = job["conductivity"] * thickness


def series(a, b):
    return np.where((a > 0) & (b > 0), 2 * a * b / np.maximum(a + b, 1e-300), 0)


face_right = series(kd[..., :-1], kd[..., 1:])
face_up = series(kd[:, :-1], kd[:, 1:])
halves = (thickness[:-1] + thickness[1:]) / 2
face_deep = np.where(
    (thickness[:-1] > 0) & (thickness[1:] > 0), job["conductivity"] * cell**2 / np.maximum(halves, 1e-300), 0
)
film, glow, ambient = job["convectionWPerM2K"] * 1e-6, job["emissivity"] * SIGMA, job["ambientC"]
tolerance = job["toleranceK"]
x_centre = (np.arange(columns) + 0.5) * cell
y_centre = ((np.arange(rows) + 0.5) * cell)[:, None]


class Balance:
    """Temperatures, capacities, conductances and net flows for a stored heat."""

    def __init__(self):
        self.temp, self.capacity, self.k, self.net, self.slope = (np.zeros(shape) for _ in range(5))
        self.right, self.up, self.deep = (np.zeros_like(face) for face in (face_right, face_up, face_deep))

    def fill_cells(self, heat):
        position = np.multiply(heat, bins_per_joule, out=A)
        index = np.clip(position, 0, bins - 1).astype(np.int32)
        position -= index
        np.multiply(np.take(slope_t, index, out=B), position, out=B)
        np.add(np.take(start_t, index, out=self.temp), B, out=self.temp)
        np.multiply(np.take(capacity_bin, index, out=B), volume, out=self.capacity)
        np.clip(position, 0, 1, out=position)
        position *= np.take(slope_k, index, out=B)
        np.add(np.take(start_k, index, out=self.k), position, out=self.k)
        kelvin = np.add(self.temp, ZERO_C, out=A)
        cubed = np.multiply(kelvin, kelvin, out=B)
        cubed *= kelvin
        cubed *= glow
        np.multiply(cubed, 4, out=self.slope)
        self.slope += film
        self.slope *= air_area
        np.multiply(cubed, kelvin, out=self.net)
        self.net -= glow * (ambient + ZERO_C) ** 4
        kelvin -= ambient + ZERO_C
        kelvin *= film
        self.net += kelvin
        self.net *= -air_area

    def fill_faces(self):
        for factor, face, low, high in self.faces():
            np.add(self.k[low], self.k[high], out=factor)
            factor *= 0.5
            factor *= face
            flow = np.subtract(self.temp[high], self.temp[low], out=A[high])
            flow *= factor
            self.net[low] += flow
            self.net[high] -= flow

    def faces(self):
        yield self.right, face_right, np.s_[..., :-1], np.s_[..., 1:]
        yield self.up, face_up, np.s_[:, :-1], np.s_[:, 1:]
        if layers > 1:
            yield self.deep, face_deep, np.s_[:-1], np.s_[1:]


A, B, Q, Z, P = (np.zeros(shape) for _ in range(5))
iterations = 0


def multiply(own, faces, p, image):
    np.multiply(own, p, out=image)
    for factor, _, low, high in faces:
        image[low] -= np.multiply(factor, p[high], out=A[high])
        image[high] -= np.multiply(factor, p[low], out=A[high])


def solve(own, faces, allowed, r, x):
    global iterations
    x[:] = 0
    if np.all(np.abs(r, out=B) <= allowed):
        return
    inverse = 1 / own
    before = np.inf
    P[:] = 0
    while True:
        iterations += 1
        np.multiply(r, inverse, out=Z)
        rz = np.vdot(r, Z)
        np.multiply(P, rz / before, out=P)
        np.add(P, Z, out=P)
        before = rz
        multiply(own, faces, P, Q)
        alpha = rz / np.vdot(P, Q)
        x += np.multiply(P, alpha, out=B)
        r -= np.multiply(Q, alpha, out=B)
        if np.all(np.abs(r, out=B) <= allowed):
            return


own, allowed, residual, change = (np.zeros(shape) for _ in range(4))
balance = Balance()


def read_temperatures(heat, out):
    position = np.multiply(heat, bins_per_joule, out=A)
    index = np.clip(position, 0, bins - 1).astype(np.int32)
    position -= index
    np.multiply(np.take(slope_t, index, out=B), position, out=B)
    np.add(np.take(start_t, index, out=out), B, out=out)


def solve_stage(base, share, heat, temp):
    for _ in range(8):
        balance.fill_cells(heat)
        balance.fill_faces()
        keeps = np.divide(balance.capacity, share, out=allowed)
        np.add(keeps, balance.slope, out=own)
        keeps *= SOLVER_SHARE * tolerance
        faces = list(balance.faces())
        for factor, _, low, high in faces:
            own[low] += factor
            own[high] += factor
        np.subtract(base, heat, out=residual)
        np.divide(residual, share, out=residual)
        np.add(residual, balance.net, out=residual)
        solve(own, faces, allowed, residual, change)
        heat += np.multiply(balance.capacity, change, out=A)
        heat += np.multiply(residual, share, out=A)
        np.add(balance.temp, change, out=change)
        read_temperatures(heat, temp)
        if np.abs(np.subtract(temp, change, out=A), out=A).max() <= 2 * SOLVER_SHARE * tolerance:
            return


def lay_heat(from_s, to_s, out):
    out[:] = 0
    radius, speed = job["sourceRadiusMm"], job["travelMmPerS"]
    places = max(1, int(np.ceil(speed * (to_s - from_s) / (0.2 * radius))))
    for place in range(places):
        y = job["fromMm"][1] + speed * (from_s + (place + 0.5) / places * (to_s - from_s))
        across = np.exp(-3 * ((x_centre - job["fromMm"][0]) / radius) ** 2)
        along = np.exp(-3 * ((y_centre - y) / radius) ** 2)
        out[0] += along * (across * (job["netPowerW"] * (to_s - from_s) / places / (along.sum() * across.sum())))


def run():
    heat = np.array(job["initialHeat"]).reshape(shape)
    balance.fill_cells(heat)
    balance.fill_faces()
    now_c, flow, peak = balance.temp.copy(), balance.net.copy(), balance.temp.copy()
    before, base, middle, end_base, end, early, late, middle_c, end_c, z = (np.zeros(shape) for _ in range(10))
    t, before_s = 0.0, 0.0
    arc_s = job["lengthMm"] / job["travelMmPerS"]
    for dt, counts, starts_afresh in job["steps"]:
        before_s = 0.0 if starts_afresh else before_s
        share = STAGE * dt
        welding = t < arc_s - 1e-9
        np.add(heat, np.multiply(flow, share, out=base), out=base)
        if welding:
            lay_heat(t, t + GAMMA * dt, early)
            lay_heat(t + GAMMA * dt, t + dt, late)
            base += early
        trend = GAMMA * dt / before_s if before_s else 0
        np.multiply(np.subtract(heat, before, out=middle), trend, out=middle)
        middle += heat
        solve_stage(base, share, middle, middle_c)
        np.multiply(middle, FROM_MIDDLE, out=end_base)
        end_base -= np.multiply(heat, FROM_START, out=A)
        if welding:
            end_base += late
            end_base += np.multiply(early, 1 - FROM_MIDDLE, out=A)
        np.multiply(np.subtract(middle, heat, out=end), 1 / GAMMA, out=end)
        end += heat
        solve_stage(end_base, share, end, end_c)
        np.multiply(flow, WEIGHTS[0] / STAGE, out=z)
        z += np.multiply(np.subtract(middle, base, out=A), WEIGHTS[1] / STAGE / share, out=A)
        z += np.multiply(np.subtract(end, end_base, out=A), WEIGHTS[2] / STAGE / share, out=A)
        z /= own
        np.abs(z, out=z)
        np.multiply(z, POOL_SHARE, out=z, where=np.maximum(now_c, end_c, out=A) > job["solidusC"])
        z.max()
        if not counts:
            continue
        np.maximum(peak, middle_c, out=peak)
        np.maximum(peak, end_c, out=peak)
        np.multiply(np.subtract(end, end_base, out=flow), 1 / share, out=flow)
        before, heat, end = heat, end, before
        now_c, end_c = end_c, now_c
        t, before_s = t + dt, dt
    return peak


begun = time.process_time()
peak = run()
seconds = time.process_time() - begun
print(
    json.dumps(
        {
            "seconds": seconds,
            "iterations": iterations,
            "numpy": np.__version__,
            "peakC": [float(peak[0, row, column]) for column, row in job["readCells"]],
        }
    )
)
