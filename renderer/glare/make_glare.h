// The glare of a film: what the lens adds to the picture, made after the film and apart from it.
//
// Read `LensGlare::make` first. The walks have no part in it: the film stays as it is.
#pragma once

#include <memory>

#include "clean/clean_film.h"
#include "develop/glare_frame.h"
#include "film/film.h"
#include "geometry/world.h"
#include "glare/light_planes.h"
#include "scene/scene.h"

namespace dapple {

// Keeps what does not depend on the film: the lens, the lamps that it sees, and their ghosts. They
// are made for the first film and serve for films of any size. The scene and the world must outlive
// it, and only the camera's size may change.
class LensGlare {
  public:
    LensGlare(const Scene& scene, const World& world);
    ~LensGlare();

    // Nothing is there if the camera has neither a lens of glass nor a veil. `clean`: the film's
    // clean frame with its layers, if that is to be shown; vignetting then dims it, not the film.
    GlareFrame of(const Film& film, const CleanFrame* clean = nullptr);
    // One layer for all light groups together: enough for a picture, and as quick for many groups
    // as for one. A star then has the mean colour of all bright light.
    GlareFrame sum_of(const Film& film, const CleanFrame* clean = nullptr);

  private:
    struct Parts;

    // `shown`: by layer; nullptr: the film.
    GlareFrame make(const Film& film, const std::vector<XyzPlane>* shown, GlareLayers which);

    const Scene& scene_;
    const World& world_;
    Camera camera_;  // at its full size
    std::unique_ptr<const Parts> parts_;
};

GlareFrame make_glare(const Scene& scene,
                      const World& world,
                      const Film& film,
                      const CleanFrame* clean = nullptr);

}  // namespace dapple
