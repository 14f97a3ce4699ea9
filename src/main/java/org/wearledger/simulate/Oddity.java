package org.wearledger.simulate;

import java.util.List;
import org.wearledger.model.ProblemKind;

/**
 * Something put into the sample on purpose.
 *
 * @param file its file under the sample's folder
 * @param what what is odd about it
 * @param expected what a sweep over the whole sample should say
 * @param readingProblems what reading this file alone reports
 */
record Oddity(String file, String what, String expected, List<ProblemKind> readingProblems) {
}
