"""Writes CalculiX's input for a closed box of S8R shells, 0.24 x 0.30 x 0.40 m, 18 mm: argument elements per metre."""
import sys

density = float(sys.argv[1])
size = (0.24, 0.30, 0.40)
n = [max(2, round(s * density)) for s in size]
numbers = {}


def node(i, j, k):
    """A node on the half grid."""
    return numbers.setdefault((i, j, k), len(numbers) + 1)


elements = []
for axis in range(3):
    a, b = [x for x in range(3) if x != axis]
    for end in (0, 2 * n[axis]):
        for p in range(n[a]):
            for q in range(n[b]):
                def at(da, db):
                    place = [0, 0, 0]
                    place[axis] = end
                    place[a] = 2 * p + da
                    place[b] = 2 * q + db
                    return node(*place)
                elements.append([at(0, 0), at(2, 0), at(2, 2), at(0, 2), at(1, 0), at(2, 1), at(1, 2), at(0, 1)])
print("*NODE, NSET=ALL")
for (i, j, k), number in numbers.items():
    print(f"{number}, {size[0] * i / (2 * n[0]):.8f}, {size[1] * j / (2 * n[1]):.8f}, {size[2] * k / (2 * n[2]):.8f}")
print("*ELEMENT, TYPE=S8R, ELSET=WALLS")
for number, e in enumerate(elements, 1):
    print(f"{number}, " + ", ".join(map(str, e)))
print("*MATERIAL, NAME=M\n*ELASTIC\n3.3e9, 0.3\n*DENSITY\n740")
print("*SHELL SECTION, ELSET=WALLS, MATERIAL=M\n0.018")
print("*STEP\n*FREQUENCY\n26\n*END STEP")
