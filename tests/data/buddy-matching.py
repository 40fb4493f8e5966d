"""Makes buddy-matching.csv: random asks and rooms, and how many can be served at most.

The answers are networkx's: a maximum flow through places, and again a maximum matching with every place a node of its
own. Run: python3 buddy-matching.py > buddy-matching.csv, with networkx 3.6.1. The test needs no Python.
"""

import random

import networkx as nx


def by_flow(may, places):
    graph = nx.DiGraph()
    graph.add_nodes_from(["from", "to"])
    for asker, servers in enumerate(may):
        graph.add_edge("from", ("asker", asker), capacity=1)
        for server in servers:
            graph.add_edge(("asker", asker), ("server", server), capacity=1)
    for server, count in enumerate(places):
        graph.add_edge(("server", server), "to", capacity=count)
    return nx.maximum_flow_value(graph, "from", "to")


def by_matching(may, places):
    graph = nx.Graph()
    askers = [("asker", asker) for asker in range(len(may))]
    graph.add_nodes_from(askers)
    for asker, servers in enumerate(may):
        for server in servers:
            graph.add_edges_from((("asker", asker), ("server", server, place)) for place in range(places[server]))
    return len(nx.bipartite.hopcroft_karp_matching(graph, top_nodes=askers)) // 2


def lists(may):
    return "|".join(" ".join(map(str, servers)) for servers in may)


random.seed(20261125)
print(f"# Made by buddy-matching.py with networkx {nx.__version__}: maximum flow and Hopcroft-Karp, which agree on each row.")
print("# may: for each asker who may serve them; places: how many each server can serve; most: askers served at most.")
print("may,places,most")
for number in range(400):
    askers, servers = random.randint(1, 9), random.randint(1, 9)
    places = [random.choice([0, 1, 1, 1, 2, 3]) for _ in range(servers)]
    density = random.choice([0.15, 0.3, 0.5, 0.9])
    may = [[s for s in random.sample(range(servers), servers) if random.random() < density] for _ in range(askers)]
    most = by_flow(may, places)
    assert most == by_matching(may, places)
    print(f"{lists(may)},{' '.join(map(str, places))},{most}")
