package padward.format;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayOutputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.cli.output.FileCheck;

/**
 * One fault at a time put into sound, invented files: the message names the place and the words.
 */
class FaultPlacesTest {
    private static final String FABRIC =
            """
            {"format":"padward-fabric/1","form":"explicit","name":"f","note":"Invented.",
            "grid":{"columns":2,"rows":1},
            "cellKinds":[{"name":"reg","holdsState":true},{"name":"lut","holdsState":false}],
            "settings":[{"name":"s1","millivolts":3300,"milliamps":8,"delay_ps":[10,20]}],
            "banks":[{"name":"A","millivolts":3300}],
            "tiles":[{"at":[1,0],"type":"edge"}],
            "wires":[{"name":"w0","from":[0,0],"to":[1,0],"kind":"e","use":"general"},
            {"name":"w1","from":[0,0],"to":[1,0]}],
            "sites":[{"name":"c0","at":[0,0],"kind":"cell","accepts":["reg"],
            "pins":[{"name":"d","direction":"in"},{"name":"q","direction":"out"}]},
            {"name":"io","at":[1,0],"kind":"io","accepts":["reg"],
            "pins":[{"name":"d","direction":"in"},{"name":"q","direction":"out"}],
            "through":[{"from":"d","to":"q","delay_ps":[1,2]}]}],
            "pads":[{"name":"P0","at":[1,0],"packagePin":"A1","bank":"A","directions":"out","data":"io","setting":"s1"},
            {"name":"P1","at":[1,0],"packagePin":"A2","directions":"in"}],
            "switches":[["c0.q","w0",5,7],["c0.q","w1",5,7],["w0","io.d",5,7],["w1","io.d",5,7]],
            "connections":[["io.q","P0",0,0],["P1","c0.d",3,4]]}
            """;

    private static final String DESIGN =
            """
            {"format":"padward-design/1","name":"d","fabric":"f.json","board":"b.json",
            "cells":[{"name":"a","kind":"reg","site":"c0","settings":{}}],
            "ports":[{"name":"o","direction":"out","pad":"P0"},{"name":"i","direction":"in","pad":"P1","setting":""}],
            "nets":[{"name":"n","driver":{"cell":"a","pin":"q"},"sinks":[{"port":"o"}],
            "route":[["c0.q","w0","io.d"],["io.d","io.q","P0"]]},
            {"name":"m","driver":{"port":"i"},"sinks":[{"cell":"a","pin":"d"}],"route":[["P1","c0.d"]]}]}
            """;

    private static final String BOARD =
            """
            {"format":"padward-board/1","name":"b","pads":[
            {"packagePin":"A1","net":"OUT","trace_mm":12.5,"attached":[{"kind":"header","name":"J1","pin":"7"}]}]}
            """;

    @TempDir private Path folder;

    @BeforeEach
    void writeSoundFiles() throws Exception {
        Files.writeString(folder.resolve("f.json"), FABRIC);
        Files.writeString(folder.resolve("d.json"), DESIGN);
        Files.writeString(folder.resolve("b.json"), BOARD);
    }

    private BadInput faultOf(String file) {
        return catchThrowableOfType(
                BadInput.class, () -> FileCheck.check(folder.resolve(file), Progress.NONE));
    }

    private BadInput faultWith(String file, String sound, String text, String broken)
            throws Exception {
        assertThat(sound).contains(text);
        int at = sound.indexOf(text);
        Files.writeString(
                folder.resolve(file),
                sound.substring(0, at) + broken + sound.substring(at + text.length()));
        return faultOf(file);
    }

    @Test
    void filesWithoutFaultsAreAccepted() {
        assertThat(faultOf("f.json")).isNull();
        assertThat(faultOf("d.json")).isNull();
        assertThat(faultOf("b.json")).isNull();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                "\"rows\":1; \"rows\":0; $.grid.rows; 1 to 10000",
                "\"rows\":1; \"rows\":1.5; $.grid.rows; whole number",
                "\"rows\":1; \"rows\":\"1\"; $.grid.rows; the text \"1\"",
                "\"rows\":1; \"rows\":100000000000000000000; $.grid.rows; whole number",
                "\"columns\":2,; ``; $.grid; member \"columns\"",
                "\"banks\"; \"bancs\"; $.bancs; did you mean \"banks\"",
                "\"note\":\"Invented.\"; \"name\":\"g\"; $.name; a second \"name\"",
                "\"delay_ps\":[10,20]; \"delay_ps\":[20,10]; $.settings[0].delay_ps[1]; at least the fast one",
                "\"delay_ps\":[10,20]; \"delay_ps\":[-1,20]; $.settings[0].delay_ps[0]; found -1",
                "\"delay_ps\":[10,20]; \"delay_ps\":[10,20,30]; $.settings[0].delay_ps; the end of the array",
                "\"delay_ps\":[10,20]; \"delay_ps\":[10]; $.settings[0].delay_ps; the end of the array",
                "\"delay_ps\":[10,20]; \"delay_ps\":[10,2000000]; $.settings[0].delay_ps[1]; 1000000",
                "\"name\":\"lut\"; \"name\":\"reg\"; $.cellKinds[1].name; \"reg\" again",
                "\"name\":\"lut\",; \"name\":\"lut\",\"lookupTable\":{\"inputs\":[\"d\"],\"output\":\"q\"},; $.cellKinds[1].lookupTable; member \"setting\"",
                "\"name\":\"lut\",; \"name\":\"lut\",\"lookupTable\":{\"inputs\":[\"d\",\"d\"],\"output\":\"q\",\"setting\":\"t\"},; $.cellKinds[1]; \"d\" again",
                "\"name\":\"lut\",; \"name\":\"lut\",\"lookupTable\":{\"inputs\":[],\"output\":\"q\",\"setting\":\"t\"},; $.cellKinds[1]; 1 to 8 input pins",
                "\"name\":\"reg\",; \"name\":\"reg\",\"lookupTable\":{\"inputs\":[\"d\"],\"output\":\"q\",\"setting\":\"t\"},; $.cellKinds[0]; holds no state",
                "\"name\":\"lut\",; \"name\":\"lut\",\"register\":{\"data\":\"d\",\"clock\":\"c\",\"output\":\"q\"},; $.cellKinds[1]; that a register holds state",
                "\"name\":\"reg\",; \"name\":\"reg\",\"register\":{\"data\":\"d\",\"clock\":\"d\",\"output\":\"q\"},; $.cellKinds[0]; each pin once",
                "\"name\":\"reg\",; \"name\":\"reg\",\"register\":{\"data\":\"d\",\"clock\":\"c\",\"output\":\"q\",\"setup_ps\":[9,8]},; $.cellKinds[0].register.setup_ps[1]; at least the fast one",
                "\"name\":\"w1\"; \"name\":\"w0\"; $.wires[1]; \"w0\" again",
                "\"name\":\"w1\"; \"name\":\"\"; $.wires[1].name; an empty text",
                "\"name\":\"io\"; \"name\":\"c0\"; $.sites[1]; \"c0\"",
                "\"accepts\":[\"reg\"]; \"accepts\":[\"rag\"]; $.sites[0].accepts[0]; did you mean \"reg\"",
                "\"from\":\"d\",\"to\":\"q\"; \"from\":\"x\",\"to\":\"q\"; $.sites[1].through[0].from; in pin",
                "\"packagePin\":\"A2\"; \"packagePin\":\"A1\"; $.pads[1].packagePin; \"A1\" again",
                "\"bank\":\"A\"; \"bank\":\"B\"; $.pads[0].bank; did you mean \"A\"",
                "\"data\":\"io\"; \"data\":\"iu\"; $.pads[0].data; name of a site",
                "\"data\":\"io\"; \"partner\":\"P9\"; $.pads[0].partner; another pad",
                "\"data\":\"io\"; \"partner\":\"P0\"; $.pads[0].partner; another pad",
                "\"data\":\"io\"; \"legalSettings\":[\"s2\"]; $.pads[0].legalSettings[0]; did you mean \"s1\"",
                "\"data\":\"io\"; \"inverts\":\"no\"; $.pads[0].inverts; true or false",
                "\"directions\":\"out\"; \"directions\":\"up\"; $.pads[0].directions; in, out, both",
                "\"at\":[1,0],\"type\"; \"at\":[2,0],\"type\"; $.tiles[0].at[0]; 0 to 1",
                "[\"w0\",\"io.d\",5,7]; [\"w0\",\"io.e\",5,7]; $.switches[2][1]; \"io.e\"",
                "[\"w0\",\"io.d\",5,7]; [\"w0\",\"w0\",5,7]; $.switches[2]; different",
                "[\"w1\",\"io.d\",5,7]; [\"w0\",\"io.d\",5,7]; $.switches[3]; a second",
                "[\"w1\",\"io.d\",5,7]; [\"w1\",\"io.d\",5]; $.switches[3]; whole number",
                "\"kind\":\"e\"; \"unusable\":\"yes\"; $.wires[0].unusable; true or false",
                "\"kind\":\"cell\"; \"kind\":\"cell\",\"unusable\":1; $.sites[0].unusable; true or false",
                "\"form\":\"explicit\"; \"form\":\"implicit\"; $.form; pattern or explicit",
                "padward-fabric/1; padward-fabric/2; $.format; did you mean \"padward-fabric/1\"",
                "\"form\":\"explicit\",; ``; $.form; none",
            })
    void aFabricsFaultIsNamed(String text, String broken, String place, String words)
            throws Exception {
        BadInput fault = faultWith("f.json", FABRIC, text, broken);
        assertThat(fault).isNotNull();
        assertThat(fault.place()).startsWith(place);
        assertThat(fault.getMessage()).contains("f.json").contains(words);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                "\"site\":\"c0\"; \"site\":\"c1\"; $.cells[0].site; did you mean \"c0\"",
                "\"kind\":\"reg\"; \"kind\":\"lut\"; $.cells[0]; accepts: reg",
                "\"settings\":{}; \"settings\":{\"a\":1}; $.cells[0].settings.a; a text",
                "\"settings\":{}; \"locked\":\"yes\"; $.cells[0].locked; true or false",
                "\"name\":\"m\"; \"name\":\"m\",\"locked\":\"wire\"; $.nets[1].locked; wires, whole",
                "\"name\":\"m\"; \"name\":\"m\",\"locked\":true; $.nets[1].locked; found true",
                "`\"settings\":{}}`; `\"settings\":{}},{\"name\":\"a\",\"kind\":\"reg\",\"site\":\"io\"}`; $.cells[1].name; \"a\" again",
                "`\"settings\":{}}`; `\"settings\":{}},{\"name\":\"b\",\"kind\":\"reg\",\"site\":\"c0\"}`; $.cells[1]; \"a\" and \"b\"",
                "`\"settings\":{}}`; `\"settings\":{}},{\"name\":\"b\",\"kind\":\"reg\",\"site\":\"io\"}`; $.nets[0].route[1][1]; cell \"b\" uses",
                "\"pad\":\"P1\"; \"pad\":\"P0\"; $.ports[1]; direction that pad P0 has: out",
                "\"pad\":\"P1\"; \"pad\":\"P9\"; $.ports[1].pad; did you mean \"P0\"",
                "\"direction\":\"in\",\"pad\":\"P1\"; \"direction\":\"out\",\"pad\":\"P0\"; $.ports[1]; \"o\" and \"i\"",
                "\"direction\":\"in\"; \"direction\":\"both\"; $.ports[1]; pad P1 has: in",
                "\"setting\":\"\"; \"setting\":\"s2\"; $.ports[1].setting; did you mean \"s1\"",
                "\"name\":\"m\"; \"name\":\"n\"; $.nets[1].name; \"n\" again",
                "`{\"cell\":\"a\",\"pin\":\"q\"}`; `{\"cell\":\"a\",\"pin\":\"d\"}`; $.nets[0].driver; other direction",
                "`{\"cell\":\"a\",\"pin\":\"q\"}`; `{\"cell\":\"a\",\"pin\":\"z\"}`; $.nets[0].driver; a pin of site c0",
                "`{\"cell\":\"a\",\"pin\":\"q\"}`; `{\"cell\":\"b\",\"pin\":\"q\"}`; $.nets[0].driver.cell; did you mean \"a\"",
                "`{\"cell\":\"a\",\"pin\":\"q\"}`; `{\"cell\":\"a\"}`; $.nets[0].driver; \"cell\" and \"pin\"",
                "`{\"port\":\"o\"}`; `{\"port\":\"i\"}`; $.nets[0].sinks[0]; direction out",
                "`{\"port\":\"o\"}`; `{\"port\":\"o\"},{\"port\":\"o\"}`; $.nets[0].sinks[1]; once",
                "\"route\":[[\"c0.q\"; \"route\":[[\"w0\"; $.nets[0].route[0][0]; the driver's \"c0.q\"",
                "\"route\":[[\"c0.q\",\"w0\"; \"route\":[[\"c0.q\",\"w2\"; $.nets[0].route[0][1]; did you mean \"w0\"",
                "[\"io.d\",\"io.q\",\"P0\"]; [\"w1\",\"io.d\"]; $.nets[0].route[1][0]; earlier branch",
                "[\"io.d\",\"io.q\",\"P0\"]; [\"io.d\",\"P0\"]; $.nets[0].route[1][1]; a switch, fixed connection or pass-through",
                "[\"io.d\",\"io.q\",\"P0\"]; [\"io.d\",\"io.q\"]; $.nets[0].sinks[0]; not on the route",
                "`{\"port\":\"o\"}`; `{\"port\":\"o\",\"unrouted\":true}`; $.nets[0].sinks[0].unrouted; a route that does",
                "`{\"port\":\"o\"}`; `{\"port\":\"o\",\"unrouted\":1}`; $.nets[0].sinks[0].unrouted; true or false",
                "[\"io.d\",\"io.q\",\"P0\"]; [\"c0.q\",\"w1\",\"io.d\"]; $.nets[0].route[1][2]; drives already",
                "[\"io.d\",\"io.q\",\"P0\"]; []; $.nets[0].route[1]; two names",
                "`\"nets\":[`; `\"nets\":[{\"name\":\"z\",\"driver\":{\"cell\":\"a\",\"pin\":\"q\"}},`; $.nets[1].driver; \"z\" and \"n\"",
                "\"fabric\":\"f.json\"; \"fabric\":\"none.json\"; ``; none.json: expected a file that can be read, found no such file",
                "\"fabric\":\"f.json\"; \"fabric\":\"/f.json\"; $.fabric; relative",
                "\"fabric\":\"f.json\"; \"fabric\":\"b.json\"; $.format; padward-board/1",
                "\"fabric\":\"f.json\"; \"fabric\":\"d.json\"; $.format; padward-design/1",
                "\"fabric\":\"f.json\"; \"fabric\":\".\"; ``; a file that can be read",
            })
    void aDesignsFaultIsNamed(String text, String broken, String place, String words)
            throws Exception {
        BadInput fault = faultWith("d.json", DESIGN, text, broken);
        assertThat(fault).isNotNull();
        assertThat(fault.place()).startsWith(place == null ? "" : place);
        assertThat(fault.getMessage()).contains(words);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                "\"A1\"; \"A3\"; $.pads[0].packagePin; did you mean \"A1\"",
                "\"packagePin\":\"A1\"; \"packagePin\":\"A1\",\"pad\":\"P0\"; $.pads[0]; both",
                "\"packagePin\":\"A1\",; ``; $.pads[0]; neither",
                "12.5; -1; $.pads[0].trace_mm; from 0",
                "12.5; 1e999; $.pads[0].trace_mm; from 0",
                "12.5; NaN; line 2; JSON",
                "\"header\"; \"hedder\"; $.pads[0].attached[0].kind; did you mean \"header\"",
                "`\"pads\":[`; `\"pads\":[{\"pad\":\"P0\"},`; $.pads[1]; once",
            })
    void aBoardsFaultIsNamed(String text, String broken, String place, String words)
            throws Exception {
        faultWith("b.json", BOARD, text, broken);
        BadInput fault = faultOf("d.json");
        assertThat(fault).isNotNull();
        assertThat(fault.place()).startsWith(place);
        assertThat(fault.getMessage()).contains("b.json").contains(words);
    }

    @Test
    void aBoardAloneIsCheckedExceptForItsPads() throws Exception {
        assertThat(faultWith("b.json", BOARD, "\"A1\"", "\"A3\"")).isNull();
        assertThat(faultWith("b.json", BOARD, "\"header\"", "\"hedder\"")).isNotNull();
    }

    @Test
    void textThatIsNoJsonIsReportedWithItsLine() throws Exception {
        Files.writeString(
                folder.resolve("d.json"), "{\"format\":\"padward-design/1\",\n\"name\" 7}");
        assertThat(faultOf("d.json").place()).startsWith("line 2 ");
        Files.writeString(folder.resolve("d.json"), DESIGN + "x");
        assertThat(faultOf("d.json").getMessage()).contains("JSON");
        Files.writeString(folder.resolve("d.json"), DESIGN + "{}");
        assertThat(faultOf("d.json").getMessage()).contains("d.json");
        Files.writeString(folder.resolve("d.json"), "[1]");
        assertThat(faultOf("d.json").getMessage()).contains("an object").contains("an array");
        Files.writeString(folder.resolve("d.json"), "");
        assertThat(faultOf("d.json").found()).contains("cut short");
        Files.writeString(folder.resolve("d.json"), "{\"name\":" + "[".repeat(100_000));
        assertThat(faultOf("d.json").getMessage()).contains("JSON");
    }

    @Test
    void aByteOrderMarkIsSkipped() throws Exception {
        Files.writeString(folder.resolve("f.json"), "\uFEFF" + FABRIC);
        assertThat(faultOf("f.json")).isNull();
    }

    @Test
    void bytesThatAreNotUtf8AreToldApart() throws Exception {
        byte[] bytes = BOARD.getBytes(StandardCharsets.UTF_8);
        bytes[BOARD.indexOf("OUT")] = (byte) 0xff;
        Files.write(folder.resolve("b.json"), bytes);
        assertThat(faultOf("b.json").expected()).isEqualTo("text in UTF-8");
    }

    @Test
    void gzipIsReadAndItsFaultsAreReported() throws Exception {
        ByteArrayOutputStream zipped = new ByteArrayOutputStream();
        try (OutputStream out = new GZIPOutputStream(zipped)) {
            out.write(FABRIC.getBytes(StandardCharsets.UTF_8));
        }
        byte[] whole = zipped.toByteArray();
        Path file = folder.resolve("f.json.gz");
        Files.write(file, whole);
        assertThat(faultOf("f.json.gz")).isNull();
        for (int length : new int[] {0, 5, whole.length / 2, whole.length - 3}) {
            Files.write(file, Arrays.copyOf(whole, length));
            assertThat(faultOf("f.json.gz").found()).contains("cut short");
        }
        Files.writeString(file, FABRIC);
        assertThat(faultOf("f.json.gz").expected()).contains("gzip");
    }

    @Test
    void aTextWithoutEndIsRefusedBeforeItFillsMemory() throws Exception {
        Path file = folder.resolve("f.json.gz");
        byte[] block = "a".repeat(1 << 20).getBytes(StandardCharsets.UTF_8);
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
            out.write("{\"name\":\"".getBytes(StandardCharsets.UTF_8));
            for (int i = 0; i < 64; i++) {
                out.write(block);
            }
        }
        assertThat(faultOf("f.json.gz").expected()).isEqualTo("shorter texts");
    }

    @Test
    void aGridThatCannotFitIsRefused() throws Exception {
        BadInput fault = faultWith("f.json", FABRIC, "\"columns\":2", "\"columns\":10001");
        assertThat(fault.place()).isEqualTo("$.grid.columns");
    }
}
