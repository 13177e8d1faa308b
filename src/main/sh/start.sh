#!/bin/sh
# cron and timers set no locale; without one Java cannot open files whose names hold other letters than ASCII.
case "${LC_ALL:-${LC_CTYPE:-$LANG}}" in *[Uu][Tt][Ff]*) ;; *) LC_ALL=C.UTF-8; export LC_ALL ;; esac
terminal=false; columns=0
[ -t 2 ] && terminal=true
[ -t 1 ] && columns=$(stty size 2>/dev/null </dev/tty) && columns=${columns#* }
exec "${JAVA_HOME:+$JAVA_HOME/bin/}java" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 -Dchainage.program="$0" \
  -Dchainage.terminal="$terminal" -Dchainage.columns="${columns:-0}" -jar "$0" "$@"
exit
