#!/bin/sh
# cron and timers set no locale; without one Java cannot open files whose names hold other letters than ASCII.
case "${LC_ALL:-${LC_CTYPE:-$LANG}}" in *[Uu][Tt][Ff]*) ;; *) LC_ALL=C.UTF-8; export LC_ALL ;; esac
terminal=false; columns=0
[ -t 2 ] && terminal=true
[ -t 1 ] && columns=$(stty size 2>/dev/null </dev/tty) && columns=${columns#* }
case $0 in /*) self=$0 ;; *) self=$PWD/$0 ;; esac
set -- -Dchainage.program="$0" -Dchainage.terminal="$terminal" -Dchainage.columns="${columns:-0}" -jar "$self" "$@"
# What the program has put by for a quick start (QuickStart.java): used when it is ours and newer than the program.
cache=${XDG_CACHE_HOME:-${HOME:+$HOME/.cache}}
case $cache:$self in
  *../* | *:*:*) ;;
  /*)
    kept=$cache/chainage/start$self
    [ -O "$kept/classes.jsa" ] && [ "$kept/classes.jsa" -nt "$self" ] \
      && set -- -XX:SharedArchiveFile="$kept/classes.jsa" -XX:+VerifySharedSpaces -Xlog:disable \
        -Dorg.sqlite.lib.path="$kept" "$@"
    set -- -Dchainage.start="$kept" "$@" ;;
esac
java=${JAVA_HOME:+$JAVA_HOME/bin/}java
# In an image with a Java of its own, that one.
[ -f "${self%/*}/../release" ] && [ -x "${self%/*}/java" ] && java=${self%/*}/java
# A small heap to begin with: most answers fit into the processor's own memory then.
exec "$java" -XX:+UseSerialGC -XX:TieredStopAtLevel=1 -Xms64m "$@"
exit
