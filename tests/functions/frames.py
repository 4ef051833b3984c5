"""A rig as a model of PyNite, a general solver of space frames, built from the survey and from nothing of ours.

PyNite's axes: X forward, Y up, Z to starboard. Arms from the mast's axis to where a stay takes hold are very stiff
beams. A stay that runs over a tip is a bar for each part; PyNite knows no rope that
runs, so the parts exchange length until all pull alike.
"""

import os
from math import cos, radians, sin

import numpy as np
import pytest

try:
    import Pynite as pynite
except ImportError:
    if os.environ.get("CI") == "true":
        raise
    pytest.skip("PyNiteFEA is not installed; it is in the group test", allow_module_level=True)

ARM = 1e5  # kN/mm
HELD = 1e5  # kN/mm of what stands for a support
POISSON = 0.33


def three(fore, port, up):
    return np.array([fore, up, -port])


class Frame:
    """The frame of a rig in one case, with these stays set and taut."""

    def __init__(self, rig, case, taut, take_outs, settle=False, parts=1):
        self.rig, self.case, self.settle, self.parts = rig, case, settle, parts
        self.model = pynite.FEModel3D()
        self.count, self.nodes, self.at = 0, {}, {}
        self.combos, self.bars = ["base"], []
        for mast in rig.masts:
            self.add_mast(mast)
        self.bars_of = {number: self.add_stay(rig.stays[number], take_outs[number]) for number in taut}
        self.model.add_load_combo("base", {"base": 1.0})
        for load in case.loads if case else ():
            self.add_load(load)

    def name(self, kind):
        self.count += 1
        return f"{kind}{self.count}"

    def node(self, at, key=None):
        if key is not None and key in self.nodes:
            return self.nodes[key]
        name = self.name("N")
        self.model.add_node(name, *map(float, at))
        self.at[name] = np.asarray(at, dtype=float)
        if key is not None:
            self.nodes[key] = name
        return name

    def fix(self, name, turns=True):
        self.model.def_support(name, True, True, True, turns, turns, turns)

    def beam(self, one, other, modulus, area, first, second, torsion, rotation=0.0):
        material, section, member = self.name("E"), self.name("S"), self.name("M")
        self.model.add_material(material, modulus, modulus / (2 + 2 * POISSON), POISSON, 0.0)
        self.model.add_section(section, area, first, second, torsion)
        self.model.add_member(member, one, other, material, section, rotation)
        return member

    def arm(self, one, other):
        """A beam so stiff that it counts as rigid, and not too stiff to solve."""
        long = float(np.linalg.norm(self.at[other] - self.at[one]))
        bend = ARM * long**3 / 12
        self.beam(one, other, 1.0, ARM * long, bend, bend, bend)

    def bar(self, one, other, ea):
        member = self.beam(one, other, 1.0, ea, 1.0, 1.0, 1.0)
        self.model.def_releases(member, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
        return member

    def axis(self, mast, along):
        rake = radians(mast.rake)
        return three(mast.foot_fore - along * sin(rake), 0.0, mast.foot_up + along * cos(rake))

    def along(self, mast, point):
        rake = radians(mast.rake)
        return -(point.fore - mast.foot_fore) * sin(rake) + (point.up - mast.foot_up) * cos(rake)

    def mast_node(self, mast, along):
        return self.node(self.axis(mast, along), (mast.name, round(along, 3)))

    def add_mast(self, mast):
        rig = self.rig
        roots = {one.tip: one.root for one in rig.spreaders}
        used = {name for stay in rig.stays for name in stay.points}
        heights = {0.0, mast.head, *([mast.partners] if mast.partners else [])}
        heights |= {load.along for case in rig.cases for load in case.loads if load.mast == mast.name}
        for point in rig.points:
            if point.mast == mast.name and point.name in used:
                heights.add(roots.get(point.name, self.along(mast, point)))
        heights |= {mast.head * part / self.parts for part in range(self.parts)}
        heights = sorted({round(along, 3) for along in heights})
        names = [self.mast_node(mast, along) for along in heights]
        for lower, upper in zip(names, names[1:]):
            # PyNite's y of an upright member lies fore and aft, so that Iz is against bending that way.
            self.beam(lower, upper, mast.modulus, mast.area, mast.moment_side, mast.moment_fore, mast.torsion)
        foot = names[0]
        self.model.def_support(foot, True, True, True, False, False, False)
        below = self.node(self.axis(mast, -100.0))
        self.fix(below)
        twist = self.beam(below, foot, 1.0, 1.0, 1.0, 1.0, 1e10)
        self.model.def_releases(twist, Ryj=True, Rzj=True)
        if mast.partners:
            rake, held = radians(mast.rake), self.mast_node(mast, mast.partners)
            for away in (three(cos(rake), 0, sin(rake)), three(0, 1, 0)):
                wall = self.node(self.at[held] + 1_000 * away)
                self.fix(wall)
                self.bar(held, wall, HELD * 1_000)
        warm = mast.modulus * mast.area * mast.rate * 1e-6 * (self.case.warmer if self.case else 0.0)
        self.push(names[-1], warm * (self.axis(mast, 1) - self.axis(mast, 0)), "base")

    def point(self, name, side):
        """The node of a point, on the mast with an arm or a spreader to it; for the hull None."""
        point = next(one for one in self.rig.points if one.name == name)
        at = three(point.fore, side * point.out, point.up)
        mast = next((one for one in self.rig.masts if one.name == point.mast), None)
        if mast is None:
            return None, at
        key = (name, side if point.out else 0)
        if key in self.nodes:
            return self.nodes[key], at
        spreader = next((one for one in self.rig.spreaders if one.tip == name), None)
        along = spreader.root if spreader else self.along(mast, point)
        root = self.mast_node(mast, round(along, 3))
        if np.linalg.norm(at - self.at[root]) < 0.01:
            return root, at
        made = self.node(at, key)
        if spreader and spreader.modulus:
            parts = spreader.area, spreader.moment_fore, spreader.moment_up, spreader.torsion
            self.beam(root, made, spreader.modulus, *parts)
        else:
            self.arm(root, made)
        return made, at

    def add_stay(self, stay, take_out):
        """The bars of a stay; all it takes out in the last part."""
        found = [self.point(name, stay.side) for name in stay.points]
        bars = []
        warm = self.case.warmer if self.case else 0.0
        whole = sum(np.linalg.norm(b[1] - a[1]) for a, b in zip(found, found[1:]))
        for at, ((one, start), (other, end)) in enumerate(zip(found, found[1:])):
            if other is None:
                other = self.node(end)
                self.fix(other)
            length = float(np.linalg.norm(end - start))
            last = at == len(found) - 2
            short = take_out - stay.rate * 1e-6 * warm * whole if last else 0.0
            bar = (one, other, (end - start) / length, stay.ea / length, short)
            self.bar(one, other, stay.ea)
            if self.settle and short:
                for way, part in zip(("DX", "DY", "DZ"), short * bar[2]):
                    self.model.def_node_disp(other, way, float(part))
            else:
                self.pull(bar, short, "base")
            bars.append(bar)
        for at in range(len(bars) - 1):
            combo = f"shift {len(self.combos)}"
            self.pull(bars[at], 1.0, combo)
            self.pull(bars[-1], -1.0, combo)
            self.model.add_load_combo(combo, {combo: 1.0})
            self.combos.append(combo)
        return bars

    def pull(self, bar, short, case):
        one, other, along, stiffness, _ = bar
        self.push(one, stiffness * short * along, case)
        self.push(other, -stiffness * short * along, case)

    def push(self, node, force, case):
        for way, part in zip(("FX", "FY", "FZ"), force):
            if part:
                self.model.add_node_load(node, way, float(part), case)

    def add_load(self, load):
        mast = next(one for one in self.rig.masts if one.name == load.mast)
        rake = radians(mast.rake)
        node = self.mast_node(mast, round(load.along, 3))
        side = load.side * (self.case.lee or 1)
        self.push(node, three(load.fore * cos(rake), side, load.fore * sin(rake)), "base")

    def moved(self, node, combo):
        found = self.model.nodes[node]
        return np.array([found.DX[combo], found.DY[combo], found.DZ[combo]])

    def stretch(self, bar, combo):
        one, other, along, _, _ = bar
        return float(along @ (self.moved(other, combo) - self.moved(one, combo)))

    def tensions(self):
        """Tension of each stay, first order, all parts of a running stay alike."""
        self.model.analyze_linear(check_stability=False)
        shifts = self.combos[1:]
        own, parts = [], []
        for number, bars in self.bars_of.items():
            first = len(own)
            for at, bar in enumerate(bars):
                moves = [bar[3] * self.stretch(bar, combo) for combo in shifts]
                base = bar[3] * (bar[4] + self.stretch(bar, "base"))
                own.append((number, base, moves))
                parts.append((first, at))
        table = np.array([moves for _, _, moves in own]).reshape(len(own), len(shifts))
        # What a shift takes out of the parts themselves.
        shift = 0
        row = 0
        for bars in self.bars_of.values():
            for at in range(len(bars) - 1):
                table[row + at, shift] += bars[at][3]
                table[row + len(bars) - 1, shift] -= bars[-1][3]
                shift += 1
            row += len(bars)
        base = np.array([one[1] for one in own])
        conditions, rights = [], []
        row = 0
        for bars in self.bars_of.values():
            for at in range(len(bars) - 1):
                conditions.append(table[row + at] - table[row + len(bars) - 1])
                rights.append(base[row + len(bars) - 1] - base[row + at])
            row += len(bars)
        shifted = np.linalg.solve(np.array(conditions), np.array(rights)) if conditions else np.zeros(0)
        found = base + table @ shifted
        return {number: found[at] for at, (number, _, _) in enumerate(own)}

    def second_order(self, first):
        """Tension of each stay after one step of the second order, given those of the first; no stay runs.

        PyNite adds the first order's tension to a bar's EA, so that what it stretches has to count with that.
        """
        self.model.analyze_PDelta(check_stability=False)
        return {
            number: (bars[0][3] + first[number] * bars[0][3] / self.rig.stays[number].ea)
            * self.stretch(bars[0], "base")
            for number, bars in self.bars_of.items()
        }
