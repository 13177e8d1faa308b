#!/bin/sh
[ -t 2 ] && terminal=true || terminal=false
exec "${JAVA_HOME:+$JAVA_HOME/bin/}java" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 \
  -Dchainage.program="$0" -Dchainage.terminal="$terminal" -jar "$0" "$@"
exit
