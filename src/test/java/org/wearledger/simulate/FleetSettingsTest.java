package org.wearledger.simulate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FleetSettingsTest {
    private static final FleetSettings DEFAULTS = FleetSettings.withDefaults(10, 4, 1);

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        INCREMENT_SHAPE | 0    | increment-shape takes a number above 0 and up to 1000, not 0.0
        SPREAD_SHAPE    | -1   | spread-shape takes a number above 0 and up to 1000, not -1.0
        MEDIAN_PERCENT  | 1001 | median-percent takes a number above 0 and up to 1000, not 1001.0
        MEMORY_EFFECT   | NaN  | memory-effect takes a number above 0 and up to 1000, not NaN
        SEASON          | -0.1 | season takes a number from 0 to 3, not -0.1
        DRIFT           | 3.1  | drift takes a number from 0 to 3, not 3.1
        SHOCK           | NaN  | shock takes a number from 0 to 3, not NaN
        MODEL_SPREAD    | 4    | model-spread takes a number from 0 to 3, not 4.0
        IDLE            | 1    | idle takes a probability from 0 to below 1, not 1.0
        SWAPS           | -0.1 | swaps takes a probability from 0 to below 1, not -0.1
        RESETS          | 1.5  | resets takes a probability from 0 to below 1, not 1.5
        MISSING         | NaN  | missing takes a probability from 0 to below 1, not NaN
        """)
    void aValueOutOfRangeIsRefused(FleetSetting setting, double value, String sentence) {
        assertThatThrownBy(() -> DEFAULTS.with(setting, value)).isInstanceOf(IllegalArgumentException.class).hasMessage(sentence);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        0       | 4  | drives takes a whole number from 1 to 2000000, not 0
        2000001 | 4  | drives takes a whole number from 1 to 2000000, not 2000001
        10      | 1  | quarters takes a whole number from 2 to 40, not 1
        10      | 41 | quarters takes a whole number from 2 to 40, not 41
        """)
    void aFleetOutOfRangeIsRefused(int drives, int quarters, String sentence) {
        assertThatThrownBy(() -> FleetSettings.withDefaults(drives, quarters, 1))
            .isInstanceOf(IllegalArgumentException.class).hasMessage(sentence);
    }

    @Test
    void theDefaultRateIsThatOfAMedianOfTwoAndAHalfPercent() {
        // The median of Gamma(3, 1) is 2.674060 (tables of the chi-squared distribution: 5.348121 / 2 for 6 degrees).
        assertThat(DEFAULTS.inverseScaleRate()).isCloseTo(0.025 * 2.674060 / 2.5, within(1e-8));
    }

    @Test
    void withChangesOneSettingOfACopy() {
        FleetSettings changed = DEFAULTS.with(FleetSetting.SEASON, 0.2);
        assertThat(changed.value(FleetSetting.SEASON)).isEqualTo(0.2);
        assertThat(changed.value(FleetSetting.SPREAD_SHAPE)).isEqualTo(3);
        assertThat(DEFAULTS.value(FleetSetting.SEASON)).isZero();
    }
}
