# Makes page_parts.cpp from the parts of both pages: that of a film and that of a night.
#   cmake -D OUT=page_parts.cpp -D HERE=renderer/page -P embed.cmake
set(film_scripts parts/make.js parts/codec.js parts/picture.js parts/light.js parts/draw.js
    parts/controls.js parts/readings.js parts/page.js)
set(night_scripts parts/make.js night/figures.js night/cards.js night/chooser.js night/effects.js
    night/differences.js night/compare.js night/night.js)
file(READ ${HERE}/parts/page.html film_html)
file(READ ${HERE}/parts/page.css film_style)
file(READ ${HERE}/night/night.html night_html)
file(READ ${HERE}/night/night.css night_style)
foreach(page film night)
    set(${page}_code "")
    foreach(script IN LISTS ${page}_scripts)
        file(READ ${HERE}/${script} text)
        string(APPEND ${page}_code "${text}\n")
    endforeach()
endforeach()
file(WRITE ${OUT} "#include \"page/page_parts.h\"

namespace dapple {

const char* const kPageHtml = R\"PART(${film_html})PART\";
const char* const kPageStyle = R\"PART(${film_style})PART\";
const char* const kPageCode = R\"PART(${film_code})PART\";
const char* const kNightHtml = R\"PART(${night_html})PART\";
const char* const kNightStyle = R\"PART(${night_style})PART\";
const char* const kNightCode = R\"PART(${night_code})PART\";

}  // namespace dapple
")
