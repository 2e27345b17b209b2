// Paths from a lamp to a sensor that are made by hand, for tests of the weights. Their densities,
// cosines and distances are given; no ray is traced.
//
// Vertex 0 is a point of the lamp, vertices 1 … n are on surfaces, vertex n + 1 is a point of the
// sensor. Edge i leads from vertex i to vertex i + 1.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

namespace dapple::test {

struct HandMadeEdge {
    double distance = 1;  // m
    double cos_from = 1;  // cosine at the edge's end nearer to the lamp
    double cos_to = 1;    // cosine at its other end
    double passes = 1;    // probability with which a walk passes straight over the edge

    double distance2() const { return distance * distance; }
};

struct HandMadeVertex {
    bool is_smooth = false;
    bool is_shiny = false;  // also true for smooth vertices
    bool focuses = false;   // also true for smooth vertices
    bool keeps_photons = true;
    // Densities of the step to the next vertex, per sr; at a smooth vertex, probabilities.
    double pdf_to_sensor = 0.3;
    double pdf_to_lamp = 0.4;
};

struct HandMadePath {
    std::string name;
    std::vector<HandMadeVertex> vertices;  // 1 … n
    std::vector<HandMadeEdge> edges;       // 0 … n
    bool point_lamp = false;
    double pdf_area = 50;        // density of the lamp's point in a light walk, per m²
    double pdf_direction = 2;    // density of a light walk's first direction, per sr
    double pdf_lamp_point = 60;  // density of the lamp's point as vertex 1 samples it, per m²
    double sheet_density = 0;    // density of vertex 1 in sheet sampling, per m²; 0: no lit cloth
    double light_walks = 1e4;
    // Probabilities with which a vertex asks for the lamp's light and for that of lit cloth: a
    // vertex that the lens sees first, and any other. A receptor always asks.
    double asks_lamp_first = 1, asks_lamp_later = 1;
    double asks_sheet_first = 1, asks_sheet_later = 1;

    // For a sensor that is a meter's receptor.
    bool at_meter = false;
    bool point_receptor = false;
    double pdf_receptor = 900;  // density of the receptor's points, per m²
    double meter_walks = 500;
    double joined_walks = 1e3;  // light walks that are joined to meters

    // For a sensor that is the lens.
    double lens_pdf = 4e5;     // density of the rays of one pixel, per sr
    double merge_area = 1e-4;  // times the share of photons that is kept, m²
    double soft_weight = 1;    // how many times a scattered light walk counts
    double inner_density = 0;  // κ of the connection of the first rough vertex; 0: not connected
    double stored_flux = 1;    // of the fixture's stored vertices, lm

    // n.
    int surfaces() const { return static_cast<int>(vertices.size()); }
    const HandMadeVertex& vertex(int i) const { return vertices[static_cast<size_t>(i - 1)]; }
    const HandMadeEdge& edge(int i) const { return edges[static_cast<size_t>(i)]; }
    bool all_smooth() const {
        return std::all_of(
            vertices.begin(), vertices.end(), [](const HandMadeVertex& v) { return v.is_smooth; });
    }
    bool seen_first(int i) const { return !at_meter && i == surfaces(); }
    double asks_lamp(int i) const { return seen_first(i) ? asks_lamp_first : asks_lamp_later; }
    double asks_sheet(int i) const { return seen_first(i) ? asks_sheet_first : asks_sheet_later; }
    // The first rough vertex from the sensor; 0 if all are smooth.
    int first_rough() const {
        int i = surfaces();
        while (i > 0 && vertex(i).is_smooth) --i;
        return i;
    }
    // κ of the connection of vertex i with vertex i - 1, as the definition has it.
    double connects(int i) const {
        if (at_meter || i != first_rough() || i < 2) return 0;
        const HandMadeVertex& z = vertex(i);
        const HandMadeVertex& y = vertex(i - 1);
        return z.keeps_photons && y.keeps_photons && !y.is_smooth ? inner_density : 0;
    }
    // Density of the lamp's point in a light walk; 1 for a point lamp.
    double lamp_area_density() const { return point_lamp ? 1 : pdf_area; }
    // Density of the sensor's point; 1 for the lens and for a point receptor.
    double sensor_area_density() const { return at_meter && !point_receptor ? pdf_receptor : 1; }
    double sensor_walks() const { return at_meter ? meter_walks : 1; }
    // The light walks that can make the path: at a meter, only those joined to meters, unless the
    // whole path is smooth.
    double light_walks_for_path() const {
        return at_meter && !all_smooth() ? joined_walks : light_walks;
    }
};

}  // namespace dapple::test
