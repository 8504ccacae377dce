#![no_main]
libfuzzer_sys::fuzz_target!(|text: &str| longsmoke_fuzz::file(text));
