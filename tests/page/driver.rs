//! A browser driven over the WebDriver protocol (W3C): HTTP with JSON to a local `chromedriver`, as much of
//! it as the tests need.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// The name under which WebDriver passes elements.
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";

/// A browser with one window; closed when dropped.
pub struct Browser {
    driver: Child,
    port: u16,
    session: String,
    _profile: tempfile::TempDir,
}

/// Where a program is, if it is on the path.
fn found(names: &[&str]) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
    names
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)))
        .find(|file| file.is_file())
}

impl Browser {
    /// Opens a window of a width and a height; or says what is absent.
    pub fn open(width: u32, height: u32) -> Result<Browser, String> {
        let chromium = found(&["chromium", "chromium-browser"]).ok_or("chromium is absent")?;
        let program = found(&["chromedriver"]).ok_or("chromedriver is absent")?;
        let profile = tempfile::tempdir().map_err(|error| error.to_string())?;
        let mut driver = Command::new(program)
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("chromedriver does not start: {error}"))?;
        let lines = BufReader::new(driver.stdout.take().expect("it is piped")).lines();
        let port = lines
            .map_while(Result::ok)
            .find_map(|line| {
                let (_, rest) = line.split_once("started successfully on port ")?;
                rest.trim_end_matches('.').parse().ok()
            })
            .expect("chromedriver says its port");
        let mut browser = Browser {
            driver,
            port,
            session: String::new(),
            _profile: profile,
        };
        let folder = browser._profile.path().display().to_string();
        let flags = [
            "--headless".to_string(),
            "--no-sandbox".into(),
            "--disable-gpu".into(),
            "--disable-quic".into(),
            "--no-first-run".into(),
            "--disable-background-networking".into(),
            "--disable-component-update".into(),
            "--disable-sync".into(),
            "--disable-dev-shm-usage".into(),
            format!("--user-data-dir={folder}"),
            format!("--window-size={width},{height}"),
        ];
        let wanted = json!({"capabilities": {"alwaysMatch": {
            "browserName": "chrome",
            "goog:chromeOptions": {"binary": chromium, "args": flags},
            "goog:loggingPrefs": {"browser": "ALL"},
        }}});
        let answer = browser.send("POST", "/session", Some(wanted));
        let session = answer["sessionId"].as_str().expect("a session").to_string();
        browser.session = format!("/session/{session}");
        Ok(browser)
    }

    /// Sends a request and gives the `value` of the answer.
    #[track_caller]
    fn send(&self, method: &str, path: &str, body: Option<Value>) -> Value {
        let body = body.map(|body| body.to_string()).unwrap_or_default();
        let mut stream =
            TcpStream::connect(("127.0.0.1", self.port)).expect("chromedriver listens");
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .expect("a time limit");
        write!(
            stream,
            "{method} {path} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nConnection: close\r\n\
             Content-Type: application/json; charset=utf-8\r\nContent-Length: {}\r\n\r\n{body}",
            self.port,
            body.len()
        )
        .expect("sent");
        let mut reader = BufReader::new(stream);
        let mut length = 0;
        loop {
            let mut line = String::new();
            reader.read_line(&mut line).expect("a head");
            if line.trim().is_empty() {
                break;
            }
            let lower = line.to_ascii_lowercase();
            if let Some(value) = lower.strip_prefix("content-length:") {
                length = value.trim().parse().expect("a length");
            }
        }
        let mut content = vec![0; length];
        reader.read_exact(&mut content).expect("an answer");
        let answer: Value = serde_json::from_slice(&content).expect("JSON");
        let value = answer["value"].clone();
        assert!(value.get("error").is_none(), "{method} {path}: {value}");
        value
    }

    #[track_caller]
    fn post(&self, path: &str, body: Value) -> Value {
        self.send("POST", &format!("{}{path}", self.session), Some(body))
    }

    /// Opens an address.
    #[track_caller]
    pub fn visit(&self, address: &str) {
        self.post("/url", json!({"url": address}));
    }

    /// Runs a piece of script and gives what it returns.
    #[track_caller]
    pub fn run(&self, script: &str) -> Value {
        self.post("/execute/sync", json!({"script": script, "args": []}))
    }

    /// The page as it is printed: a PDF in base64.
    #[track_caller]
    pub fn printed(&self) -> String {
        let answer = self.post("/print", json!({"background": true}));
        answer.as_str().expect("base64").to_string()
    }

    /// The first element that a selector finds.
    #[track_caller]
    fn element(&self, selector: &str) -> String {
        let found = self.post(
            "/element",
            json!({"using": "css selector", "value": selector}),
        );
        found[ELEMENT].as_str().expect("an element").to_string()
    }

    /// Clicks in the middle of the first element that a selector finds, as a user does with the pointer:
    /// whatever lies over it gets the click.
    #[track_caller]
    pub fn click(&self, selector: &str) {
        let press = json!([
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]);
        self.point(selector, press);
    }

    /// Moves the pointer to the middle of the first element that a selector finds.
    #[track_caller]
    pub fn point_at(&self, selector: &str) {
        self.point(selector, json!([]));
    }

    #[track_caller]
    fn point(&self, selector: &str, then: Value) {
        let element = self.element(selector);
        let origin = json!({ELEMENT: element});
        let script = "arguments[0].scrollIntoView({block: 'center', inline: 'center'});";
        self.post("/execute/sync", json!({"script": script, "args": [origin]}));
        let mut actions =
            vec![json!({"type": "pointerMove", "duration": 0, "x": 0, "y": 0, "origin": origin})];
        actions.extend(then.as_array().into_iter().flatten().cloned());
        let mouse = json!({"type": "pointer", "id": "mouse", "actions": actions});
        self.post("/actions", json!({"actions": [mouse]}));
    }

    /// Types into the first element that a selector finds.
    #[track_caller]
    pub fn type_into(&self, selector: &str, text: &str) {
        let id = self.element(selector);
        self.post(&format!("/element/{id}/value"), json!({"text": text}));
    }

    /// Presses keys one after the other, wherever the focus is.
    #[track_caller]
    pub fn press(&self, keys: &[Key]) {
        let actions: Vec<Value> = keys
            .iter()
            .flat_map(|key| {
                let value = key.code();
                [
                    json!({"type": "keyDown", "value": value}),
                    json!({"type": "keyUp", "value": value}),
                ]
            })
            .collect();
        let actions = json!({"actions": [{"type": "key", "id": "keyboard", "actions": actions}]});
        self.post("/actions", actions);
    }

    /// What the console has got since it was last asked, warnings and errors.
    #[track_caller]
    pub fn complaints(&self) -> Vec<String> {
        let log = self.post("/se/log", json!({"type": "browser"}));
        log.as_array()
            .expect("a list")
            .iter()
            .filter(|entry| matches!(entry["level"].as_str(), Some("SEVERE" | "WARNING")))
            .map(|entry| entry["message"].to_string())
            .collect()
    }
}

/// A key without a letter.
#[derive(Debug, Clone, Copy)]
pub enum Key {
    Tab,
    Enter,
    Escape,
    Right,
}

impl Key {
    /// Its code in the protocol.
    fn code(self) -> &'static str {
        match self {
            Key::Tab => "\u{e004}",
            Key::Enter => "\u{e007}",
            Key::Escape => "\u{e00c}",
            Key::Right => "\u{e014}",
        }
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // Best effort, also while a test fails: the session first, which ends the browser.
        if !self.session.is_empty()
            && let Ok(mut stream) = TcpStream::connect(("127.0.0.1", self.port))
        {
            let _ = write!(
                stream,
                "DELETE {} HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n",
                self.session
            );
            let _ = stream.set_read_timeout(Some(Duration::from_secs(10)));
            let _ = stream.read(&mut [0; 64]);
        }
        let _ = self.driver.kill();
        let _ = self.driver.wait();
    }
}
