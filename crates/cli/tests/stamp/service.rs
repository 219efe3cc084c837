//! A time-stamp service of our own: `openssl ts` behind HTTP, with an invented root.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;
use tempfile::TempDir;

const SETTINGS: &str = "[tsa]\ndefault_tsa = service\n[service]\nserial = serial\nsigner_digest = sha256\n\
    default_policy = 1.2.3.4.1\ndigests = DIGESTS\ness_cert_id_chain = no\ness_cert_id_alg = sha256\n";
const PURPOSE: &str = "extendedKeyUsage=critical,timeStamping\nkeyUsage=critical,digitalSignature\n";

/// A service that listens until the test ends.
pub(crate) struct Service {
    folder: Arc<TempDir>,
    /// Where it gives time stamps.
    pub(crate) address: String,
}

impl Service {
    #[track_caller]
    pub(crate) fn open() -> Self {
        let folder = Arc::new(tempfile::tempdir().expect("a folder"));
        let place = folder.path();
        for (name, text) in [
            ("service.cnf", SETTINGS.replace("DIGESTS", "sha256")),
            ("refuse.cnf", SETTINGS.replace("DIGESTS", "sha512")),
            ("purpose.cnf", PURPOSE.to_owned()),
            ("serial", "01\n".to_owned()),
        ] {
            std::fs::write(place.join(name), text).expect("written");
        }
        let key = "-newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes";
        openssl(
            place,
            &format!("req -x509 {key} -keyout root.key -out root.pem -days 30 -subj /CN=Invented"),
        );
        let name = "/O=Nobody/CN=Invented time stamps";
        let mut words: Vec<&str> = ["req"].into_iter().chain(key.split(' ')).collect();
        words.extend(["-keyout", "own.key", "-out", "own.csr", "-subj", name]);
        openssl_of(place, &words);
        openssl(
            place,
            "x509 -req -in own.csr -CA root.pem -CAkey root.key -CAcreateserial -days 30 -extfile purpose.cnf -out own.pem",
        );
        let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
        let address = format!("http://{}/stamp", listener.local_addr().expect("an address"));
        let shared = Arc::clone(&folder);
        std::thread::spawn(move || {
            listener.incoming().flatten().for_each(|stream| answer(shared.path(), stream))
        });
        Service { folder, address }
    }

    /// The same service behind another door: one that misbehaves.
    pub(crate) fn at(&self, door: &str) -> String {
        self.address.replace("/stamp", &format!("/{door}"))
    }

    /// Its root, as a path.
    pub(crate) fn root(&self) -> String {
        self.path("root.pem").display().to_string()
    }

    /// An answer about some bytes.
    pub(crate) fn answers(&self, bytes: &[u8]) -> Vec<u8> {
        about(self.folder.path(), bytes)
    }

    /// What OpenSSL says of a file and an answer.
    pub(crate) fn verifies(&self, data: &Path, answer: &Path) -> String {
        let mut command = Command::new("openssl");
        command.args(["ts", "-verify", "-data"]).arg(data).arg("-in").arg(answer);
        let output = command.args(["-CAfile", &self.root()]).output().expect("openssl");
        [output.stdout, output.stderr].map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).concat()
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }
}

#[track_caller]
fn openssl(place: &Path, words: &str) -> Vec<u8> {
    openssl_of(place, &words.split(' ').collect::<Vec<_>>())
}

#[track_caller]
fn openssl_of(place: &Path, words: &[&str]) -> Vec<u8> {
    let ran = Command::new("openssl").current_dir(place).args(words).output();
    let output = ran.expect("OpenSSL is needed to give time stamps (Debian: apt-get install openssl)");
    assert!(output.status.success(), "openssl {words:?}: {}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}

fn about(place: &Path, bytes: &[u8]) -> Vec<u8> {
    std::fs::write(place.join("bytes"), bytes).expect("written");
    let query = openssl(place, "ts -query -data bytes -sha256 -cert");
    reply(place, &query, "service.cnf")
}

fn reply(place: &Path, query: &[u8], settings: &str) -> Vec<u8> {
    std::fs::write(place.join("query"), query).expect("written");
    let words = [
        "ts",
        "-reply",
        "-config",
        settings,
        "-queryfile",
        "query",
        "-signer",
        "own.pem",
        "-inkey",
        "own.key",
    ];
    // It ends in failure when it refuses, and has written the refusal.
    Command::new("openssl").current_dir(place).args(words).output().expect("openssl").stdout
}

/// One request, one answer.
fn answer(place: &Path, mut stream: TcpStream) {
    let mut reader = BufReader::new(stream.try_clone().expect("a stream"));
    let (mut line, mut head) = (String::new(), Vec::new());
    while reader.read_line(&mut line).is_ok_and(|read| read > 2) {
        head.push(std::mem::take(&mut line).trim().to_ascii_lowercase());
    }
    let length =
        head.iter().find_map(|line| line.strip_prefix("content-length: ")?.parse().ok()).unwrap_or(0);
    assert!(head.iter().any(|line| line == "content-type: application/timestamp-query"), "{head:?}");
    let mut query = vec![0; length];
    reader.read_exact(&mut query).expect("the query");
    let door = head[0].split(' ').nth(1).unwrap_or_default().to_owned();
    let (status, body) = match door.as_str() {
        "/stamp" => ("200 OK", reply(place, &query, "service.cnf")),
        "/refuse" => ("200 OK", reply(place, &query, "refuse.cnf")),
        "/old" => ("200 OK", with_another_number(place, &query)),
        "/other" => ("200 OK", about(place, b"another seal")),
        "/long" => ("200 OK", vec![0x30; 1 << 20]),
        _ => ("404 Not Found", Vec::new()),
    };
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: application/timestamp-reply\r\nContent-Length: {}\r\nConnection: close\r\n\r\n",
        body.len()
    );
    // The other side may have had enough of it.
    let _ = stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(&body));
}

/// An answer about the same bytes to another query: the last byte of the number before the wish for the certificate differs.
fn with_another_number(place: &Path, query: &[u8]) -> Vec<u8> {
    let mut other = query.to_vec();
    let wish = other.windows(3).rposition(|window| window == [0x01, 0x01, 0xff]).expect("the wish");
    other[wish - 1] ^= 1;
    reply(place, &other, "service.cnf")
}
