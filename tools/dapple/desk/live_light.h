// The newest frame with other dimmers and colours, at once and without rendering.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "develop/develop.h"
#include "develop/film_record.h"

namespace dapple {

class LiveLight {
  public:
    // `film` is the frame of the set in `text`, with clean layers.
    void keep(std::string text, std::shared_ptr<const FilmRecord> film);
    void drop() { film_.reset(); }

    // The frame of `text`, as it is displayed. Nothing if there is no film, if `text` differs in
    // more than what lamps send out, or if a lamp was dark that is to be lit.
    std::optional<Picture> frame_of(const std::string& text) const;

  private:
    std::string text_;
    std::shared_ptr<const FilmRecord> film_;
};

}  // namespace dapple
