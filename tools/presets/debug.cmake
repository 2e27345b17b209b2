# For stepping through: no optimisation, assertions on.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "" FORCE)
