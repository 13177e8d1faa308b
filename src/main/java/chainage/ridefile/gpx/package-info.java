/** Reads GPX 1.0 and 1.1: every track one activity, routes and waypoints passed over. */
@NullMarked
package chainage.ridefile.gpx;

import org.jspecify.annotations.NullMarked;
