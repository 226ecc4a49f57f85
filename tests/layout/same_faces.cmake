# Preparing a face twice must give the same bytes, so that a printed file can be made again.
set(out ${WORK}/again.ttf)
execute_process(COMMAND ${PYTHON} ${SOURCE}/fonts/prepare.py --base=${FACES}/NotoSans-Bold.ttf
  --fallback=${FACES}/NotoSansMath-Regular.ttf --fallback=${FACES}/NotoSansSymbols2-Regular.ttf
  --characters=${SOURCE}/fonts/characters.txt --out=${out} RESULT_VARIABLE failed)
if(failed)
  message(FATAL_ERROR "prepare.py failed")
endif()
file(SHA256 ${out} again)
file(SHA256 ${BUILT} built)
if(NOT again STREQUAL built)
  message(FATAL_ERROR "the same faces and characters gave other bytes")
endif()
