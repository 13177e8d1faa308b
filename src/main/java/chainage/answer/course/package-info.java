/**
 * What chains' states cost over a course.
 */
@NullMarked
package chainage.answer.course;

import org.jspecify.annotations.NullMarked;
