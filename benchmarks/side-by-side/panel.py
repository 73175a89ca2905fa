"""Writes the clamped board of PanelBenchmark, 0.4 × 0.3 m and 18 mm, as quadratic solids for CalculiX: elements along
x, y and z are the arguments; first ten modes."""
import sys
nx, ny, nz = (int(v) for v in sys.argv[1:4])
lx, ly, lz = 0.4, 0.3, 0.018
ids, nodes, out = {}, [], []
def node(i, j, k):  # on the grid of half steps
    key = (i, j, k)
    if key not in ids:
        ids[key] = len(ids) + 1
        nodes.append((ids[key], lx * i / (2 * nx), ly * j / (2 * ny), lz * k / (2 * nz)))
    return ids[key]
els = []
for k in range(nz):
    for j in range(ny):
        for i in range(nx):
            a, b, c = 2 * i, 2 * j, 2 * k
            corners = [(0,0,0),(2,0,0),(2,2,0),(0,2,0),(0,0,2),(2,0,2),(2,2,2),(0,2,2)]
            middles = [(1,0,0),(2,1,0),(1,2,0),(0,1,0),(1,0,2),(2,1,2),(1,2,2),(0,1,2),(0,0,1),(2,0,1),(2,2,1),(0,2,1)]
            els.append([node(a+p, b+q, c+r) for p, q, r in corners + middles])
print("*NODE, NSET=ALL")
for n in nodes: print("%d, %.9g, %.9g, %.9g" % n)
print("*ELEMENT, TYPE=C3D20R, ELSET=E")
for e, el in enumerate(els, 1):
    print(f"{e}, " + ", ".join(map(str, el[:15])) + ",")
    print(", ".join(map(str, el[15:])))
edge = [v for (i, j, k), v in ids.items() if i in (0, 2 * nx) or j in (0, 2 * ny)]
print("*NSET, NSET=EDGE")
for v in edge: print(f"{v},")
print("*MATERIAL, NAME=M\n*ELASTIC\n3.3E9, 0.3\n*DENSITY\n740\n*SOLID SECTION, ELSET=E, MATERIAL=M\n*BOUNDARY\nEDGE, 1, 3\n*STEP\n*FREQUENCY\n10\n*END STEP")
