#!/bin/sh
terminal=false; columns=0
[ -t 2 ] && terminal=true
[ -t 1 ] && columns=$(stty size 2>/dev/null </dev/tty) && columns=${columns#* }
exec "${JAVA_HOME:+$JAVA_HOME/bin/}java" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 -Dchainage.program="$0" \
  -Dchainage.terminal="$terminal" -Dchainage.columns="${columns:-0}" -jar "$0" "$@"
exit
