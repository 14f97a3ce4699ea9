package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.wearledger.model.ProblemKind;

/** {@code check --explain RULE}. */
class RulePageTest {
    @Test
    void itIsTheSectionOfThePageOfRules() {
        assertThat(RulePage.of(ProblemKind.FILE_EMPTY)).isEqualTo("""
            file-empty (file refused)
            The file has no bytes, or begins with blanks only. The machine counts as not reported. Collect it again.""");
    }

    @ParameterizedTest
    @EnumSource
    void everyRuleSaysWhatToKnowWithoutLinks(ProblemKind rule) {
        assertThat(RulePage.of(rule)).startsWith(rule.id() + " (" + rule.effect().label() + ")\n").hasSizeGreaterThan(100).doesNotContain("](", "\n#");
    }
}
