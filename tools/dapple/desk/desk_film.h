// The newest film of the desk, and what the page may ask about it: its light, to mix it in the
// page; what is judged; and a light meter held anywhere in the frame.
#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "develop/film_record.h"

namespace dapple {

class DeskFilm {
  public:
    // From any thread. `tables` is what set_json() says of the film's set. `is_new`: of another
    // text than the film before. Returns the number of the film.
    uint64_t put(uint64_t version, std::shared_ptr<const FilmRecord> film, std::string tables);
    // Which surfaces of the set are matte, by the film's indices.
    void put_matte(std::vector<bool> matte);

    // The answers below are "" before the first film.

    // Four bytes, the length of a JSON text, lowest first; the JSON text
    //   { "number", "version", "tables", "film": as page_json.h has it }
    // filled up with blanks to a multiple of four; and the light of the film's layers
    // (page/light_parcel.h).
    std::string light() const;
    // { "version", "passes", "width", "things_width", "judge": as `dapple judge --json` }
    std::string judge() const;
    // A meter held at a point, as shares of the frame's width and height from the left and the top.
    // { "why" } where nothing can be read.
    std::string meter_at(double x, double y) const;

  private:
    struct State {
        std::shared_ptr<const FilmRecord> film;
        uint64_t number = 0, version = 0;
        std::string tables;  // JSON
        std::vector<bool> matte;
    };
    State state() const;

    mutable std::mutex mutex_;
    State state_;
};

}  // namespace dapple
