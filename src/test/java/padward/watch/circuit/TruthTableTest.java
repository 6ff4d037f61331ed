package padward.watch.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;

class TruthTableTest {
    private static final TruthTable AND = TruthTable.of(2, row -> row == 3);

    @Test
    void rowZeroIsWrittenOnTheRight() {
        assertThat(AND.binary()).isEqualTo("1000");
        assertThat(AND.hexadecimal()).isEqualTo("8");
        assertThat(TruthTable.of(4, row -> row == 15).hexadecimal()).isEqualTo("8000");
        assertThat(TruthTable.of(4, row -> (row & 1) != 0).hexadecimal()).isEqualTo("aaaa");
        assertThat(TruthTable.of(1, row -> row == 1).hexadecimal()).isEqualTo("2");
        assertThat(TruthTable.constant(true).binary()).isEqualTo("1");
    }

    @Test
    void hexadecimalAndBinaryAreTheSameNumber() {
        Random random = new Random(5);
        for (int inputs = 0; inputs <= 10; inputs++) {
            TruthTable table = TruthTable.of(inputs, row -> random.nextBoolean());
            assertThat(new java.math.BigInteger(table.hexadecimal(), 16))
                    .isEqualTo(new java.math.BigInteger(table.binary(), 2));
        }
    }

    /** Shannon, Trans. AIEE 57 (1938): f = x·f(x = 1) + x'·f(x = 0). */
    @Test
    void isMadeOfItsTwoCofactorsAgain() {
        Random random = new Random(7);
        for (int inputs = 1; inputs <= 9; inputs++) {
            TruthTable table = TruthTable.of(inputs, row -> random.nextBoolean());
            for (int input = 0; input < inputs; input++) {
                int x = input;
                TruthTable high = table.with(x, true);
                TruthTable low = table.with(x, false);
                TruthTable again =
                        TruthTable.of(
                                inputs,
                                row -> {
                                    int rest = row >> x + 1 << x | row & (1 << x) - 1;
                                    return (row >> x & 1) != 0 ? high.value(rest) : low.value(rest);
                                });
                assertThat(again).isEqualTo(table).hasSameHashCodeAs(table);
            }
        }
    }

    @Test
    void knowsOnWhatItDepends() {
        TruthTable wide = AND.widened();
        assertThat(wide.inputs()).isEqualTo(3);
        assertThat(wide.dependsOn(0)).isTrue();
        assertThat(wide.dependsOn(1)).isTrue();
        assertThat(wide.dependsOn(2)).isFalse();
        assertThat(wide.with(2, true)).isEqualTo(AND);
        assertThat(AND.not().highRows()).isEqualTo(3);
        assertThat(AND.with(0, false).isConstant()).isTrue();
    }

    @Test
    void refusesRowsAndInputsThatItDoesNotHave() {
        assertThatThrownBy(() -> AND.value(4)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> AND.with(2, true)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> TruthTable.of(17, row -> true))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
