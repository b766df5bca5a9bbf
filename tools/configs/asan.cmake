set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(AFTERCROP_DEVELOPER ON CACHE BOOL "")
set(CMAKE_CXX_FLAGS "-O1 -g1 -fsanitize=address,undefined -fno-sanitize-recover=all" CACHE STRING "")
