// The colours of a model's vertices, as scans bring them.
//
// They are read as sRGB: scanners write the codes of their pictures. Numbers above 1 mean that the
// file counts to 255.
#pragma once

#include <array>
#include <vector>

#include "set/models/model_description.h"

namespace dapple {

class VertexColours {
  public:
    // The colour of the vertex with this index; indices rise.
    void add(size_t vertex, const std::array<float, 3>& code);

    // Gives the model its linear colours, white where a vertex has none. A material without a
    // picture then has these in place of its own colour, and so do faces without a material, which
    // get the material "no material". White alone is no colour. Call after the pictures are found.
    void give_to(ModelDescription& model);

  private:
    std::vector<std::array<float, 3>> codes_;
    float largest_ = 0;
};

// IEC 61966-2-1, a code from 0 to 1.
float linear_from_srgb(float code);

}  // namespace dapple
