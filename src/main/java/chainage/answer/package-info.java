/**
 * What the rider is told: records with their columns and sentences. What a model finds is said in English here, with its
 * units and the commands that follow, and not where it is found; files and lines that cannot be read are told of by their
 * readers. Nothing here parses, reads or writes files.
 */
@NullMarked
package chainage.answer;

import org.jspecify.annotations.NullMarked;
