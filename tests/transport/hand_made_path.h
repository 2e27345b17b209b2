// Paths from a lamp to a sensor that are made by hand: densities, cosines and distances are given,
// nothing is traced. For tests of the weights.
//
// Vertex 0 is a point of the lamp, vertices 1 … n are on surfaces, vertex n + 1 is a point of the
// sensor. Edge i leads from vertex i to vertex i + 1.
#pragma once

#include <string>
#include <vector>

namespace dapple::test {

struct HandMadeEdge {
    double distance = 1;  // m
    double cos_from = 1;  // at the end that is nearer to the lamp
    double cos_to = 1;    // at the other end
    double passes = 1;    // probability with which a walk passes straight over it
};

struct HandMadeVertex {
    bool is_smooth = false;
    bool is_shiny = false;  // smooth vertices are shiny too
    bool keeps_photons = true;
    // Densities per sr of going on; of a smooth vertex, probabilities.
    double pdf_to_sensor = 0.3;
    double pdf_to_lamp = 0.4;
};

struct HandMadePath {
    std::string name;
    std::vector<HandMadeVertex> vertices;  // 1 … n
    std::vector<HandMadeEdge> edges;       // 0 … n
    bool point_lamp = false;
    double pdf_area = 50;      // of the lamp's point by a light walk, per m²
    double pdf_direction = 2;  // of a light walk's first direction, per sr
    double pdf_asked = 60;     // of the lamp's point when it is asked from vertex 1, per m²
    double sheet_density = 0;  // of vertex 1 by sheet sampling, per m²; 0: not on lit cloth
    double light_walks = 1e4;

    // A meter's receptor in place of the lens.
    bool at_meter = false;
    bool point_receptor = false;
    double pdf_receptor = 900;  // of its points, per m²
    double meter_walks = 500;
    double joined_walks = 1e3;  // light walks that are joined to meters

    double lens_pdf = 4e5;     // of one pixel's rays, per sr
    double merge_area = 1e-4;  // m², with the share of photons that is kept
    double soft_weight = 1;    // how many times a scattered light walk counts at the lens

    int surfaces() const { return static_cast<int>(vertices.size()); }
    const HandMadeVertex& vertex(int i) const { return vertices[static_cast<size_t>(i - 1)]; }
    const HandMadeEdge& edge(int i) const { return edges[static_cast<size_t>(i)]; }
    bool all_smooth() const {
        for (const HandMadeVertex& v : vertices) {
            if (!v.is_smooth) return false;
        }
        return true;
    }
};

// One technique that can make a path, how often it counts times its density by the definition, and
// its weight as the renderer computes it.
struct WeighedTechnique {
    std::string name;
    double density = 0;
    double weight = 0;
};

// Every technique that can make the path.
std::vector<WeighedTechnique> weigh_all_techniques(const HandMadePath& path);

}  // namespace dapple::test
