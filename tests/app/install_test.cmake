# Installs into an empty folder and prints a card with what is there, away from the build tree.
# BUILD: the build tree; SOURCE: the project; PREFIX: the empty folder.
file(REMOVE_RECURSE ${PREFIX})
execute_process(COMMAND ${CMAKE_COMMAND} --install ${BUILD} --prefix ${PREFIX}
  RESULT_VARIABLE status OUTPUT_QUIET)
if(status)
  message(FATAL_ERROR "the installation failed: ${status}")
endif()
foreach(file bin/tubwright share/tubwright/data/species.json share/tubwright/templates/stocks.json
    share/tubwright/fonts/OFL.txt share/bash-completion/completions/tubwright
    share/doc/tubwright/docs/LICENSE)
  if(NOT EXISTS ${PREFIX}/${file})
    message(SEND_ERROR "not installed: ${file}")
  endif()
endforeach()
execute_process(COMMAND ${PREFIX}/bin/tubwright print ${SOURCE}/examples/quince-row.json
  --out ${PREFIX}/card.pdf WORKING_DIRECTORY ${PREFIX} RESULT_VARIABLE status)
if(status OR NOT EXISTS ${PREFIX}/card.pdf)
  message(FATAL_ERROR "the installed program printed no card: ${status}")
endif()
