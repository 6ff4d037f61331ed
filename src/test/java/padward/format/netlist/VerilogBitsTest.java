package padward.format.netlist;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.StringReader;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.format.source.FileLimits;
import padward.format.source.Source;

/** Each bit of a signal counts once, however it is put together, and before it is made. */
class VerilogBitsTest {
    private static List<Bit> read(String signal, int room) throws BadInput {
        BitCount count = new BitCount();
        assertThat(count.isTooMuchWith(FileLimits.NETLIST_BITS - room)).isFalse();
        NetlistModule module = new NetlistModule("m");
        module.nets.put("v", Range.of(7, 0));
        VerilogLexer lexer =
                new VerilogLexer(Source.of(Path.of("m.v")), new StringReader(signal + " "));
        lexer.next();
        return new VerilogSignals(lexer, module, count).read();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            textBlock =
                    """
                    a              | 1
                    v              | 8
                    v[3]           | 1
                    v[6:3]         | 4
                    12'h5          | 12
                    {a, b}         | 2
                    {v, v}         | 16
                    {{{v}, a}, 1'b0} | 10
                    {5{v}}         | 40
                    {2{{3{a, b}}}} | 12
                    {1{v}}         | 8
                    {{4{a}}, {4{a}}} | 8
                    """)
    void signalsOfAsManyBitsAsThereIsRoomForAreRead(String signal, int bits) throws Exception {
        assertThat(read(signal, bits)).hasSize(bits);
        BadInput fault = catchThrowableOfType(BadInput.class, () -> read(signal, bits - 1));
        assertThat(fault.expected()).isEqualTo("at most 20000000 bits at pins and in assignments");
    }
}
