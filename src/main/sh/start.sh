#!/bin/sh
exec "${JAVA_HOME:+$JAVA_HOME/bin/}java" -XX:+UseSerialGC -Xshare:auto -jar "$0" "$@"
