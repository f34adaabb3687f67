# The player's own files as texts within the library, so that a page needs none beside it.
set(player_dir ${CMAKE_CURRENT_LIST_DIR})
set(player_files tones.js pitch.js player.js)
file(READ ${player_dir}/player.css PLAYER_STYLE)
set(PLAYER_SCRIPT "")
foreach(name ${player_files})
  file(READ ${player_dir}/${name} content)
  string(APPEND PLAYER_SCRIPT "${content}")
endforeach()
configure_file(${player_dir}/../player_source.cpp.in ${CMAKE_CURRENT_BINARY_DIR}/player_source.cpp @ONLY)
target_sources(sectio_page PRIVATE ${CMAKE_CURRENT_BINARY_DIR}/player_source.cpp)
list(TRANSFORM player_files PREPEND ${player_dir}/)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS
             ${player_files} ${player_dir}/player.css)
