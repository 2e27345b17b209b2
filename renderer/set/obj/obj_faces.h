// Reads `f` lines into triangles.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "set/models/model_description.h"
#include "set/models/model_report.h"
#include "set/models/triangulate.h"
#include "set/obj/obj_text.h"

namespace dapple {

class ObjFaces {
  public:
    // Triangles are added to `model`, which already has all its positions, uvs and normals.
    ObjFaces(ModelDescription& model, ModelReport& report) : model_(model), report_(report) {}

    // What the statements above a face have set. Negative indices count back from the `given` ones.
    struct State {
        int32_t given_positions = 0;
        int32_t given_uvs = 0;
        int32_t given_normals = 0;
        int32_t material = -1;
        uint32_t smoothing_group = 0;
    };

    // Reads the rest of the statement whose first word, `keyword`, `scanner` has just returned.
    void read(ObjScanner& scanner, std::string_view keyword, const State& state);

  private:
    struct Indexed {  // the list that an index refers to
        const char* what;
        int64_t given;
        int64_t total;
        std::string* missing = nullptr;  // set if there is no such entry; nullptr: a problem
    };

    bool read_corners(ObjScanner& scanner, const State& state);
    bool read_corner(const ObjScanner& scanner,
                     std::string_view word,
                     const State& state,
                     ModelCorner& corner);
    bool read_index(const ObjScanner& scanner,
                    std::string_view word,
                    const char*& at,
                    const Indexed& indexed,
                    int32_t& index);
    void note_missing(const Place& face) const;
    void add_triangles(const Place& face, const State& state);

    ModelDescription& model_;
    ModelReport& report_;
    std::vector<ModelCorner> corners_;         // of the face being read
    std::string missing_uv_, missing_normal_;  // what the face names that is not there
    std::vector<std::array<double, 3>> outline_;
    Triangulator triangulator_;
};

}  // namespace dapple
