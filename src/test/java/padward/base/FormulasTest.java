package padward.base;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FormulasTest {
    @ParameterizedTest
    @CsvSource(
            quoteCharacter = '`',
            value = {
                "=1+1;'=1+1",
                "@SUM(A1);'@SUM(A1)",
                "-x;'-x",
                "+x;'+x",
                "'=1;''=1",
                "-12;-12",
                "+0.5;+0.5",
                "clk12;clk12",
                "it's;it's",
                "'quoted;'quoted",
                "'';''"
            },
            delimiter = ';')
    void aTextThatASpreadsheetWouldCalculateIsGuardedAndReadBack(String text, String field) {
        assertThat(Formulas.guard(text)).isEqualTo(field);
        assertThat(Formulas.unguard(field)).isEqualTo(text);
    }
}
