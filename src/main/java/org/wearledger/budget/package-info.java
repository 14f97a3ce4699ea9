/**
 * From assessments and prices to the funding request: which replacements are identified, how many more to expect and what they cost by
 * probability, which warranties are open, what changed since an earlier sweep, and what to do. Apart from {@code assess}, because
 * a standing must not depend on a price. Pure: knows {@code model} and {@code stats}.
 */
package org.wearledger.budget;
