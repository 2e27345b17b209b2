# Flags for our own code, and the one function that makes a folder a library.

add_library(dapple_flags INTERFACE)
target_include_directories(dapple_flags INTERFACE ${CMAKE_SOURCE_DIR}/renderer)
target_compile_definitions(dapple_flags INTERFACE
    GLM_FORCE_EXPLICIT_CTOR
    GLM_FORCE_RADIANS
)
target_compile_options(dapple_flags INTERFACE
    -Werror
    -Wall         # the usual suspects
    -Wextra       # unused parameters, missing initialisers
    -Wshadow      # a name that hides another
    -Wconversion  # a number that changes its value on the way
    -Wno-restrict # g++ 12 sees overlaps in std::string that are not there (GCC bug 105329)
    -fno-math-errno  # sqrt without errno, so that loops vectorise
)
if(DAPPLE_NATIVE)
    target_compile_options(dapple_flags INTERFACE -march=native)
endif()
if(DAPPLE_SANITIZE)
    target_compile_options(dapple_flags INTERFACE
        -fsanitize=${DAPPLE_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
    target_link_options(dapple_flags INTERFACE -fsanitize=${DAPPLE_SANITIZE})
endif()

# Several files at once: each of ours spends most of its compilation on the same headers. `FILES`:
# how many. A change to one of them compiles all of them again.
function(dapple_compile_together TARGET FILES)
    if(NOT CMAKE_BUILD_TYPE STREQUAL Debug)
        set_target_properties(${TARGET} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE ${FILES})
    endif()
endfunction()

# Code that no run spends its time in: compiled for a short build, more so with sanitizers, which
# make a compiler's optimisation of command lines and tests the greater part of a build.
function(dapple_compile_quickly TARGET)
    dapple_compile_together(${TARGET} 8)
    if(DAPPLE_SANITIZE)
        target_compile_options(${TARGET} PRIVATE -O0)
    elseif(CMAKE_BUILD_TYPE STREQUAL Release)
        target_compile_options(${TARGET} PRIVATE -O1)
    endif()
endfunction()

# dapple_folder(NAME SOURCES a.cpp … LINKS folder … USES library …)
#   LINKS: folders of ours that this one may include (design table in DEVELOPERS.md)
#   USES:  libraries of others, kept inside the folder where possible
function(dapple_folder NAME)
    cmake_parse_arguments(ARG "" "" "SOURCES;LINKS;USES" ${ARGN})
    add_library(dapple_${NAME} STATIC ${ARG_SOURCES})
    target_link_libraries(dapple_${NAME} PUBLIC dapple_flags)
    foreach(folder IN LISTS ARG_LINKS)
        target_link_libraries(dapple_${NAME} PUBLIC dapple_${folder})
    endforeach()
    target_link_libraries(dapple_${NAME} PUBLIC ${ARG_USES})
endfunction()
