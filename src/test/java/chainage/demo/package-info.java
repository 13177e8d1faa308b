/**
 * Writes the demo season under {@code fixtures/season}: an invented rider's rides in all three formats, the same bytes
 * on every run. What is ridden when is a table; how it is ridden comes from a small road model; each format has a
 * writer. No clock and no unseeded randomness.
 */
@NullMarked
package chainage.demo;

import org.jspecify.annotations.NullMarked;
