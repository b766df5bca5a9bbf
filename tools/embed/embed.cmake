# aftercrop_embed(TARGET FILE...): puts YAML files into TARGET as the bytes of their trees, one object
# a file, so that an edit makes one object again. Nothing is parsed when the program starts.
add_executable(
  aftercrop_embed
  src/diagnostic/diagnostic.cpp
  src/diagnostic/render.cpp
  src/diagnostic/text.cpp
  src/load/packed_tree.cpp
  src/load/tree.cpp
  src/load/tree_builder.cpp
  src/load/tree_text.cpp
  tools/embed/embed.cpp)
target_compile_features(aftercrop_embed PRIVATE cxx_std_20)
target_include_directories(aftercrop_embed PRIVATE include src)
target_link_libraries(aftercrop_embed PRIVATE Boost::headers "${yaml_cpp}" fmt::fmt
                                              aftercrop_warnings)

function(aftercrop_embed target)
  set(generated "${CMAKE_BINARY_DIR}/generated/embedded")
  file(MAKE_DIRECTORY "${generated}")
  foreach(file IN LISTS ARGN)
    get_filename_component(name "${file}" NAME_WE)
    add_custom_command(
      OUTPUT "${generated}/${name}.cpp"
      COMMAND aftercrop_embed "${file}" "${generated}/${name}.cpp"
      WORKING_DIRECTORY "${CMAKE_SOURCE_DIR}"
      DEPENDS "${CMAKE_SOURCE_DIR}/${file}" aftercrop_embed
      COMMENT "Embedding ${file}"
      VERBATIM)
    target_sources(${target} PRIVATE "${generated}/${name}.cpp")
  endforeach()
  add_custom_command(
    OUTPUT "${generated}/index.cpp"
    COMMAND aftercrop_embed --index "${generated}/index.cpp" ${ARGN}
    DEPENDS aftercrop_embed "${CMAKE_SOURCE_DIR}/CMakeLists.txt"
    COMMENT "Listing the embedded files"
    VERBATIM)
  target_sources(${target} PRIVATE "${generated}/index.cpp")
endfunction()

# aftercrop_embed_text(TARGET FILE NAME FOLDER): puts a text file into TARGET; NAME() in
# aftercrop::FOLDER gives it.
function(aftercrop_embed_text target file name folder)
  set(generated "${CMAKE_BINARY_DIR}/generated/embedded")
  file(MAKE_DIRECTORY "${generated}")
  add_custom_command(
    OUTPUT "${generated}/${name}.cpp"
    COMMAND aftercrop_embed --text "${file}" "${generated}/${name}.cpp" "${name}" "${folder}"
    WORKING_DIRECTORY "${CMAKE_SOURCE_DIR}"
    DEPENDS "${CMAKE_SOURCE_DIR}/${file}" aftercrop_embed
    COMMENT "Embedding ${file}"
    VERBATIM)
  target_sources(${target} PRIVATE "${generated}/${name}.cpp")
endfunction()
