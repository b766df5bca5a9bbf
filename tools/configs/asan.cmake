# Sanitizers make GCC 12 believe that std::regex reads what it has not set: that warning is off here.
set(CMAKE_BUILD_TYPE Asan CACHE STRING "")
set(CMAKE_CXX_FLAGS_ASAN "-Og -g1 -fsanitize=address,undefined -fno-sanitize-recover=all -Wno-maybe-uninitialized" CACHE STRING "")
set(AFTERCROP_DEVELOPER ON CACHE BOOL "")
set(AFTERCROP_PRECOMPILE ON CACHE BOOL "")
