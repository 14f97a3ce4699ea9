/**
 * From assessments and prices to what is asked for: which replacements are named, how many more to expect and what they cost by
 * probability, what changed since an earlier sweep, and what to do. Pure: knows {@code model} and {@code stats}.
 */
package org.wearledger.budget;
