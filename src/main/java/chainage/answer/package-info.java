/**
 * What the rider is told: records with their columns and sentences. English, units and the words of commands are made here and nowhere below; nothing here parses, reads or writes files.
 */
@NullMarked
package chainage.answer;

import org.jspecify.annotations.NullMarked;
