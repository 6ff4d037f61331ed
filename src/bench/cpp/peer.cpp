// The same questions to general graph libraries in C++ (Boost Graph, LEMON), on an exported graph.
// Reads a file of 32-bit integers: n, m, rate numerator, rate denominator, start[n + 1], target[m],
// weight[m], x[n], y[n], then the number of questions and pairs (from, to); the first question's
// start is also that of the sweep. Prints one line per measurement.
#include <boost/graph/astar_search.hpp>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <boost/graph/dijkstra_shortest_paths_no_color_map.hpp>
#include <lemon/bin_heap.h>
#include <lemon/dijkstra.h>
#include <lemon/radix_heap.h>
#include <lemon/static_graph.h>

#include <algorithm>
#include <chrono>
#include <climits>
#include <cstdio>
#include <cstdlib>
#include <utility>
#include <vector>

static double now() {
    return std::chrono::duration<double, std::milli>(
               std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

static std::vector<int> readInts(FILE* file, size_t count) {
    std::vector<int> result(count);
    if (fread(result.data(), sizeof(int), count, file) != count) {
        fprintf(stderr, "the file ends too early\n");
        exit(2);
    }
    return result;
}

struct Weight {
    int ps;
};
using Csr = boost::compressed_sparse_row_graph<boost::directedS, boost::no_property, Weight,
                                               boost::no_property, int, int>;

struct Done {};

// Stops at the goal, and remembers what was touched so that the next question can reset it.
struct Visitor : public boost::default_astar_visitor {
    int goal;
    std::vector<int>* touched;
    void examine_vertex(int u, const Csr&) const {
        if (u == goal) throw Done();
    }
    void discover_vertex(int u, const Csr&) const { touched->push_back(u); }
};

struct Geometric : public boost::astar_heuristic<Csr, int> {
    const int* x;
    const int* y;
    int gx, gy;
    long rate, per;
    int operator()(int v) const {
        return int((std::abs(x[v] - gx) + std::abs(y[v] - gy)) * rate / per);
    }
};

int main(int argc, char** argv) {
    FILE* file = argc == 2 ? fopen(argv[1], "rb") : nullptr;
    if (!file) {
        fprintf(stderr, "usage: peer FILE\n");
        return 2;
    }
    std::vector<int> head = readInts(file, 4);
    int n = head[0], m = head[1];
    std::vector<int> start = readInts(file, n + 1), target = readInts(file, m),
                     weight = readInts(file, m), x = readInts(file, n), y = readInts(file, n);
    int questions = readInts(file, 1)[0];
    std::vector<int> pairs = readInts(file, 2 * size_t(questions));
    fclose(file);

    std::vector<std::pair<int, int>> ends(m);
    for (int v = 0; v < n; v++) {
        for (int e = start[v]; e < start[v + 1]; e++) ends[e] = {v, target[e]};
    }
    std::vector<double> best;
    long long sumBoost = 0, sumLemon = 0;
    {
        std::vector<Weight> weights(m);
        for (int e = 0; e < m; e++) weights[e].ps = weight[e];
        Csr graph(boost::edges_are_sorted, ends.begin(), ends.end(), weights.begin(), n);
        auto edgeWeight = boost::get(&Weight::ps, graph);
        auto index = boost::get(boost::vertex_index, graph);
        std::vector<int> dist(n), pred(n);
        for (int round = 0; round < 3; round++) {
            double begin = now();
            boost::dijkstra_shortest_paths_no_color_map(
                graph, pairs[0],
                boost::predecessor_map(pred.data()).distance_map(dist.data()).weight_map(edgeWeight));
            best.push_back(now() - begin);
        }
        for (int d : dist) sumBoost += d == INT_MAX ? 0 : d;

        std::vector<int> cost(n, INT_MAX), rank(n, INT_MAX);
        std::vector<boost::default_color_type> color(n, boost::white_color);
        for (int v = 0; v < n; v++) pred[v] = v;
        std::fill(dist.begin(), dist.end(), INT_MAX);
        std::vector<int> touched;
        for (int q = 0; q < questions; q++) {
            int from = pairs[2 * q], to = pairs[2 * q + 1];
            Geometric bound;
            bound.x = x.data();
            bound.y = y.data();
            bound.gx = x[to];
            bound.gy = y[to];
            bound.rate = head[2];
            bound.per = head[3];
            Visitor visitor;
            visitor.goal = to;
            visitor.touched = &touched;
            double begin = now();
            dist[from] = 0;
            rank[from] = bound(from);
            try {
                boost::astar_search_no_init(
                    graph, from, bound,
                    boost::visitor(visitor)
                        .predecessor_map(pred.data())
                        .rank_map(rank.data())
                        .distance_map(dist.data())
                        .weight_map(edgeWeight)
                        .color_map(boost::make_iterator_property_map(color.begin(), index))
                        .vertex_index_map(index));
            } catch (Done&) {
            }
            int found = dist[to];
            for (int v : touched) {
                dist[v] = rank[v] = INT_MAX;
                pred[v] = v;
                color[v] = boost::white_color;
            }
            touched.clear();
            printf("ask boost %d %d %.6f\n", q, found, now() - begin);
        }
    }
    printf("sweep boost %lld %.6f\n", sumBoost, *std::min_element(best.begin(), best.end()));
    best.clear();
    {
        using Graph = lemon::StaticDigraph;
        Graph graph;
        graph.build(n, ends.begin(), ends.end());
        ends.clear();
        ends.shrink_to_fit();
        Graph::ArcMap<int> length(graph);
        for (int e = 0; e < m; e++) length[graph.arc(e)] = weight[e];
        using Cross = Graph::NodeMap<int>;
        for (int round = 0; round < 3; round++) {
            using Search = lemon::Dijkstra<Graph, Graph::ArcMap<int>>::SetStandardHeap<
                lemon::RadixHeap<Cross>>::Create;
            Search search(graph, length);
            double begin = now();
            search.run(graph.node(pairs[0]));
            best.push_back(now() - begin);
            sumLemon = 0;
            for (int v = 0; v < n; v++) {
                if (search.reached(graph.node(v))) sumLemon += search.dist(graph.node(v));
            }
        }
        printf("sweep lemon-radix %lld %.6f\n", sumLemon,
               *std::min_element(best.begin(), best.end()));
        best.clear();
        for (int round = 0; round < 3; round++) {
            lemon::Dijkstra<Graph, Graph::ArcMap<int>> search(graph, length);
            double begin = now();
            search.run(graph.node(pairs[0]));
            best.push_back(now() - begin);
        }
        printf("sweep lemon-binary %lld %.6f\n", sumLemon,
               *std::min_element(best.begin(), best.end()));
    }
    return 0;
}
